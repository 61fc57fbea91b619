#include "store/memory_backend.hpp"

#include <algorithm>
#include <cstring>

#include "store/backed_store.hpp"
#include "store/copy.hpp"

namespace wildling::store {
namespace {

/// Null, then numbers, then text, then bytes, as SQLite sorts.
int rank(const Value& value) {
  constexpr std::array<int, 5> kRank = {0, 1, 1, 2, 3};
  return kRank[value.index()];
}

double number(const Value& value) {
  const auto* whole = std::get_if<std::int64_t>(&value);
  return whole != nullptr ? static_cast<double>(*whole) : std::get<double>(value);
}

template <typename T>
int three_way(const T& a, const T& b) {
  return a < b ? -1 : b < a ? 1 : 0;
}

int compare(const Value& a, const Value& b) {
  if (rank(a) != rank(b)) return three_way(rank(a), rank(b));
  if (rank(a) == 0) return 0;
  if (a.index() == b.index()) {
    if (const auto* whole = std::get_if<std::int64_t>(&a))
      return three_way(*whole, std::get<std::int64_t>(b));
  }
  if (rank(a) == 1) return three_way(number(a), number(b));
  if (rank(a) == 2) return three_way(std::get<std::string>(a), std::get<std::string>(b));
  return three_way(std::get<Blob>(a), std::get<Blob>(b));
}

bool holds(const Condition& condition, const Row& row) {
  const Value& value = cell(row, condition.column);
  const bool null = std::holds_alternative<std::monostate>(value);
  if (condition.compare == Compare::null) return null;
  if (condition.compare == Compare::not_null) return !null;
  if (null || std::holds_alternative<std::monostate>(condition.value)) return false;
  const int order = compare(value, condition.value);
  switch (condition.compare) {
    case Compare::equal:
      return order == 0;
    case Compare::not_equal:
      return order != 0;
    case Compare::less:
      return order < 0;
    case Compare::at_most:
      return order <= 0;
    case Compare::more:
      return order > 0;
    default:
      return order >= 0;
  }
}

bool all_hold(const std::vector<Condition>& where, const Row& row) {
  return std::all_of(where.begin(), where.end(), [&](const Condition& c) { return holds(c, row); });
}

void append_key(std::string& key, const Value& value) {
  key += static_cast<char>('0' + rank(value));
  if (rank(value) == 1) {
    const double as_real = number(value);
    std::array<char, sizeof as_real> bytes{};
    std::memcpy(bytes.data(), &as_real, sizeof as_real);
    key.append(bytes.data(), bytes.size());
  } else if (const auto* text = std::get_if<std::string>(&value)) {
    key += *text;
  }
  key += '\x1f';
}

const Value* equal_value(const Filter& filter, const std::string& column) {
  for (const Condition& c : filter.where) {
    if (c.column == column && c.compare == Compare::equal) return &c.value;
  }
  return nullptr;
}

/// The key of an index if the filter asks for equality in all its columns.
std::optional<std::string> key_for(const std::vector<std::string>& columns, const Filter& filter) {
  std::string key;
  for (const std::string& column : columns) {
    const Value* value = equal_value(filter, column);
    if (value == nullptr) return std::nullopt;
    append_key(key, *value);
  }
  return key;
}

std::string key_of(const std::vector<std::string>& columns, const Row& row) {
  std::string key;
  for (const std::string& column : columns) append_key(key, cell(row, column));
  return key;
}

class MemorySink : public RowSink {
 public:
  MemorySink(Backend& backend, const Table& table, std::vector<std::string> columns)
      : backend_(backend), table_(table), columns_(std::move(columns)) {}

  void add(std::span<const Value> values) override {
    Row row;
    for (std::size_t i = 0; i < columns_.size(); ++i) row[columns_[i]] = values[i];
    backend_.insert(table_, row);
  }

 private:
  Backend& backend_;
  const Table& table_;
  std::vector<std::string> columns_;
};

Row shown_columns(const Row& row, const std::vector<std::string>& columns) {
  if (columns.empty()) return row;
  Row part;
  for (const std::string& column : columns) part[column] = cell(row, column);
  return part;
}

}  // namespace

void MemoryBackend::begin() {
  before_ = tables_;
}

void MemoryBackend::commit() {
  before_.clear();
}

void MemoryBackend::rollback() noexcept {
  tables_ = std::move(before_);
  before_.clear();
}

const MemoryBackend::Held* MemoryBackend::read(const Table& table) const {
  const auto found = tables_.find(table.def.name);
  return found == tables_.end() ? nullptr : found->second.get();
}

MemoryBackend::Held& MemoryBackend::write(const Table& table) {
  auto& held = tables_[table.def.name];
  if (!held) {
    held = std::make_shared<Held>();
    if (is_editable(table.def)) {
      held->index_columns.push_back({"uid"});
      held->index_columns.push_back({"import_uid"});
    }
    for (const Index& each : table.def.indexes) held->index_columns.push_back(each.columns);
    held->indexes.resize(held->index_columns.size());
  } else if (held.use_count() > 1) {
    held = std::make_shared<Held>(*held);
  }
  return *held;
}

void MemoryBackend::index(Held& held, const Row& row, std::int64_t id) {
  for (std::size_t i = 0; i < held.indexes.size(); ++i) {
    held.indexes[i].emplace(key_of(held.index_columns[i], row), id);
  }
}

void MemoryBackend::forget(Held& held, const Row& row, std::int64_t id) {
  for (std::size_t i = 0; i < held.indexes.size(); ++i) {
    auto [from_here, to] = held.indexes[i].equal_range(key_of(held.index_columns[i], row));
    while (from_here != to && from_here->second != id) ++from_here;
    if (from_here != to) held.indexes[i].erase(from_here);
  }
}

std::vector<std::int64_t> MemoryBackend::ids(const Held& held, const Filter& filter) {
  std::vector<std::int64_t> found;
  const auto take = [&](std::int64_t id) {
    if (all_hold(filter.where, held.rows.at(id))) found.push_back(id);
  };
  for (std::size_t i = 0; i < held.indexes.size(); ++i) {
    const auto key = key_for(held.index_columns[i], filter);
    if (!key) continue;
    const auto [first, last] = held.indexes[i].equal_range(*key);
    for (auto each = first; each != last; ++each) take(each->second);
    std::sort(found.begin(), found.end());
    return found;
  }
  for (const auto& each : held.rows) take(each.first);
  return found;
}

void MemoryBackend::select(const Table& table, const Filter& filter,
                           const std::function<void(const Row&)>& take) {
  const Held* held = read(table);
  if (held == nullptr) return;
  std::vector<const Row*> rows;
  for (const std::int64_t id : ids(*held, filter)) rows.push_back(&held->rows.at(id));
  std::stable_sort(rows.begin(), rows.end(), [&](const Row* a, const Row* b) {
    for (const Order& order : filter.order) {
      const int way = compare(cell(*a, order.column), cell(*b, order.column));
      if (way != 0) return order.falling ? way > 0 : way < 0;
    }
    return false;
  });
  if (filter.at_most && rows.size() > *filter.at_most) rows.resize(*filter.at_most);
  std::vector<Row> copies;  // `take` may read again
  copies.reserve(rows.size());
  for (const Row* row : rows) copies.push_back(shown_columns(*row, filter.columns));
  for (const Row& row : copies) take(row);
}

std::int64_t MemoryBackend::count(const Table& table, const Filter& filter) {
  const Held* held = read(table);
  return held == nullptr ? 0 : static_cast<std::int64_t>(ids(*held, filter).size());
}

std::int64_t MemoryBackend::insert(const Table& table, const Row& row) {
  Held& held = write(table);
  const std::int64_t id = integer_of(row, "id").value_or(held.last_id + 1);
  held.last_id = std::max(held.last_id, id);
  Row whole;
  for (const Column& column : table.columns) whole[column.name] = cell(row, column.name);
  whole["id"] = id;
  index(held, whole, id);
  held.rows[id] = std::move(whole);
  return id;
}

void MemoryBackend::update(const Table& table, std::int64_t id, const Row& row) {
  Held& held = write(table);
  Row& old = held.rows.at(id);
  forget(held, old, id);
  for (const auto& [name, value] : row) old[name] = value;
  index(held, old, id);
}

void MemoryBackend::remove(const Table& table, std::int64_t id) {
  Held& held = write(table);
  forget(held, held.rows.at(id), id);
  held.rows.erase(id);
}

std::int64_t MemoryBackend::remove_where(const Table& table, const Filter& filter) {
  const Held& held = write(table);
  const auto gone = ids(held, filter);
  for (const std::int64_t id : gone) remove(table, id);
  return static_cast<std::int64_t>(gone.size());
}

std::unique_ptr<RowSink> MemoryBackend::bulk(const Table& table,
                                             const std::vector<std::string>& columns) {
  return std::make_unique<MemorySink>(*this, table, columns);
}

void MemoryBackend::backup_to(const std::string& path, bool overwrite) {
  write_copy(path, overwrite, schema_, *this);
}

std::unique_ptr<Store> in_memory(Outside& outside, const Schema& schema) {
  Opened opened{std::make_unique<MemoryBackend>(schema), newest_version(schema)};
  auto& backend = *opened.backend;
  const Tables tables(tables_of(schema, newest_version(schema)));
  const Table& versions = tables.at("schema_versions");
  const std::string now = outside.now_utc();
  for (const Migration& migration : schema) {
    backend.insert(
        versions,
        {{"version", from(migration.version)}, {"made_utc", now}, {"what", migration.what}});
  }
  return std::make_unique<BackedStore>(std::move(opened), schema, outside);
}

}  // namespace wildling::store
