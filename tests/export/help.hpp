#pragma once
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "export/laid_block.hpp"
#include "layout/assign.hpp"

namespace wildling::exports {

/// A folder of its own, removed at the end.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "wildling_export.XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }

  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  [[nodiscard]] std::string file(const char* name) const { return path_ + "/" + name; }

  [[nodiscard]] std::size_t entries() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path_), {}));
  }

 private:
  std::string path_;
};

/// Makes files of more than `bytes` fail as a full disk does, until it goes out of scope.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) : old_handler_(std::signal(SIGXFSZ, SIG_IGN)) {
    ::getrlimit(RLIMIT_FSIZE, &old_);
    rlimit small = old_;
    small.rlim_cur = bytes;
    ::setrlimit(RLIMIT_FSIZE, &small);
  }

  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

  ~SmallDisk() {
    ::setrlimit(RLIMIT_FSIZE, &old_);
    std::signal(SIGXFSZ, old_handler_);
  }

 private:
  rlimit old_{};
  void (*old_handler_)(int);
};

struct Ran {
  int status = -1;
  std::string output;
};

inline Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe))
    ran.output.append(buffer.data(), n);
  ran.status = ::pclose(pipe);
  return ran;
}

/// Two invented blocks in the middle of Borneo: B1 with open gates, B<2> (its code tests escaping)
/// with closed ones.
struct Site {
  ground::Frame frame{{.lon_deg = 113.5, .lat_deg = -0.8}};
  std::vector<std::string> species = {"Shorea \"merah\"", "=Ficus & co"};
  layout::Places first;
  layout::Places second;
  layout::Assignment first_species;
  layout::Assignment second_species;
  std::optional<layout::Baseline> first_line;
  std::optional<layout::Baseline> second_line;
  std::vector<LaidBlock> blocks;

  explicit Site(double metres = 40) {
    ground::XyPolygon a;
    a.outer = {{0, 0}, {metres, 0}, {metres, metres}, {0, metres}};
    a.holes.push_back({{10, 10}, {10, 15}, {15, 15}, {15, 10}});
    ground::XyPolygon b;
    b.outer = {{100, 0}, {130, 0}, {130, 30}, {100, 30}};
    const layout::Grid grid = layout::square_grid(2.7, 20, 1, 0);
    first = layout::places({a}, {}, grid);
    second = layout::places({b}, {}, grid);
    const int half = static_cast<int>(first.size() / 2);
    first_species = layout::assign(first, std::vector<int>{half, half - 10}, Seed{1}, 0);
    second_species = layout::assign(second, std::vector<int>{20, 20}, Seed{1}, 1);
    first_line = layout::baseline({a}, {}, first, 5);
    second_line = layout::baseline({b}, {}, second, 5);
    blocks = {block("B1", {a}, first, first_species, *first_line),
              block("B<2>", {b}, second, second_species, *second_line)};
    blocks[0].gate.open = true;
    blocks[1].gate.reasons.push_back(say("export.gates_not_asked"));
  }

  LaidBlock block(const char* code, const ground::XyShape& shape, const layout::Places& places,
                  const layout::Assignment& assigned, const layout::Baseline& line) const {
    return {.code = code,
            .site = "S1",
            .ground_type = "slope",
            .shape = ground::to_lonlat(shape, frame),
            .gate = {},
            .frame = &frame,
            .places = &places,
            .species = assigned.species,
            .baseline = &line};
  }
};

inline const Words& english() {
  static const Words words(Language::en);
  return words;
}

}  // namespace wildling::exports
