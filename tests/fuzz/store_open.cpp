// A programme file with some bytes overwritten or its end cut off: opens and reads, or is refused
// with a sentence; never a crash. Input: groups of 4 bytes: three for a place in the file, one for
// the value. A group that starts with 255 cuts the file there.
#include <cstdlib>

#include <fcntl.h>
#include <unistd.h>

#include "base/files.hpp"
#include "store/geometry.hpp"
#include "store/store.hpp"

namespace {

using namespace wildling;
using namespace wildling::store;

std::string scratch(const char* name) {
  const std::string folder = ::access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
  return folder + "/wildling_fuzz_" + std::to_string(::getpid()) + name;
}

/// Few tables, so that damage hits what is read and each run is fast.
Schema small_schema() {
  Schema schema = {{1, "small", {}}};
  for (const Operation& operation : shipped_schema().front().operations) {
    const std::string& name = std::get<AddTable>(operation).table.name;
    for (const char* wanted :
         {"schema_versions", "programme_state", "change_sets", "changes", "imports", "sites"}) {
      if (name == wanted) schema.front().operations.push_back(operation);
    }
  }
  return schema;
}

std::string sound_file(const Schema& schema, Outside& outside) {
  const std::string path = scratch("_sound.gpkg");
  {
    const auto store = create_file(path, outside, schema);
    ChangeSet changes;
    changes.who = "Sari";
    const Blob shape = encode(MultiPolygon{{{{{{0, 0}, {1, 0}, {1, 1}}}}}});
    for (int i = 0; i < 20; ++i) {
      changes.rows.push_back(
          RowChange::insert("sites", {{"code", std::to_string(i)}, {"geom", shape}}));
    }
    store->apply(changes);
  }
  std::string bytes = read_file(path);
  ::unlink(path.c_str());
  return bytes;
}

void damage(std::string& bytes, const std::uint8_t* data, std::size_t size) {
  for (std::size_t i = 0; i + 4 <= size && !bytes.empty(); i += 4) {
    const std::size_t place =
        ((std::size_t{data[i]} << 16U) | (std::size_t{data[i + 1]} << 8U) | data[i + 2]) %
        bytes.size();
    if (data[i] == 255) {
      bytes.resize(place);
    } else {
      bytes[place] = static_cast<char>(data[i + 3]);
    }
  }
}

void write_plainly(const std::string& path, const std::string& bytes) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (file < 0 || ::write(file, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size()))
    std::abort();
  ::close(file);
}

void use(const std::string& path, OpenMode mode, Outside& outside, const Schema& schema) {
  try {
    const auto store = open_file(path, mode, outside, schema);
    for (const TableDef& table : store->tables()) {
      for (const Row& row : store->rows(table.name)) static_cast<void>(row.size());
    }
    static_cast<void>(store->damage());
    if (store->read_only()) return;
    const auto sets = store->change_sets();
    if (!sets.empty()) store->undo(sets.front().uid, "Sari", "page");
  } catch (const Error&) {
    return;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Rehearsal outside{Seed{1}};
  static const Schema schema = small_schema();
  static const std::string sound = sound_file(schema, outside);
  static const std::string path = scratch(".gpkg");
  std::string bytes = sound;
  damage(bytes, data, size);
  for (const OpenMode mode : {OpenMode::read_only, OpenMode::read_write}) {
    write_plainly(path, bytes);
    use(path, mode, outside, schema);
    for (const char* ending : {"", "-wal", "-shm", "-journal", ".lock"})
      ::unlink((path + ending).c_str());
  }
  return 0;
}
