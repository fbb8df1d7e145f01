// SPDX-License-Identifier: MIT
// Builds a case from a base case and edits. Values are copied from the parsed trees, which many
// cases share. A copied node does not remember the file and line it was read from, so the case
// keeps track of the originals.
#include <algorithm>
#include <charconv>
#include <filesystem>
#include <sstream>
#include <utility>

#include "case_access.h"

namespace ovendays::base {
namespace {
const char* const kCaseKey = "case";

std::vector<std::string> parts_of(std::string_view path) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= path.size();) {
    const std::size_t dot = std::min(path.find('.', at), path.size());
    parts.emplace_back(path.substr(at, dot - at));
    at = dot + 1;
  }
  return parts;
}

std::optional<std::size_t> place_in(const toml::array& array, const std::string& part) {
  std::size_t number = 0;
  const char* end = part.data() + part.size();
  const auto [stop, error] = std::from_chars(part.data(), end, number);
  if (error == std::errc{} && stop == end) {
    return number >= 1 && number <= array.size() ? std::optional(number - 1) : std::nullopt;
  }
  for (std::size_t i = 0; i < array.size(); ++i) {
    const toml::table* table = array.get(i)->as_table();
    if (table != nullptr && table->get("name") != nullptr &&
        table->get("name")->value<std::string>() == part) {
      return i;
    }
  }
  return std::nullopt;
}

std::string places_text(const toml::array& array) {
  std::string text = "1 to " + std::to_string(array.size());
  constexpr std::size_t kMostNames = 8;
  for (std::size_t i = 0; i < array.size() && i < kMostNames; ++i) {
    const toml::node& item = *array.get(i);
    const toml::table* table = item.as_table();
    const toml::node* name = table == nullptr ? nullptr : table->get("name");
    if (name != nullptr && name->is_string()) text += ", " + quoted(name->as_string()->get());
  }
  return text;
}

// The place a path leads to: a key of a table, or an index of an array.
struct Target {
  toml::table* table = nullptr;
  std::string key;
  toml::array* array = nullptr;
  std::size_t index = 0;

  [[nodiscard]] toml::node* value() const {
    return array != nullptr ? array->get(index) : table->get(key);
  }
  void put(const toml::source_region& source, toml::node&& value) const {
    if (array == nullptr) {
      table->insert_or_assign(toml::key(key, source), std::move(value));
      return;
    }
    const auto at = array->begin() + static_cast<std::ptrdiff_t>(index);
    array->insert(array->erase(at), std::move(value));
  }
  void put_copy(const toml::source_region& source, const toml::node& value) const {
    if (array == nullptr) {
      table->insert_or_assign(toml::key(key, source), value);
      return;
    }
    const auto at = array->begin() + static_cast<std::ptrdiff_t>(index);
    array->insert(array->erase(at), value);
  }
  void erase() const {
    if (array == nullptr) {
      table->erase(key);
    } else {
      array->erase(array->begin() + static_cast<std::ptrdiff_t>(index));
    }
  }
};

// What to do where a path leads through a table that does not exist.
enum class Missing { kMade, kRefused };
}  // namespace

/// Applies edits to the tree of a case and records their faults in the case.
class CaseEditor {
 public:
  CaseEditor(CaseNode::State& state, std::string file) : state_(state), file_(std::move(file)) {}

  void apply(const std::string& array, const toml::table& entry) {
    if (const toml::node* whole = entry.get("use")) {
      put_copy({&root(), array, nullptr, 0}, whole->source(), *whole);
    }
    name_ = array;
    if (const toml::node* drop = entry.get("drop")) drop_all(*drop);
    if (const toml::table* set = values_of(entry, "set")) {
      for (auto&& [path, value] : *set) set_one(path, value);
    }
    if (const toml::table* add = values_of(entry, "add")) {
      for (auto&& [path, value] : *add) add_one(path, value);
    }
  }

 private:
  struct Path {
    std::string_view text;
    const toml::source_region& source;
    const char* verb;
  };

  [[nodiscard]] toml::table& root() const { return state_.documents[0]->table; }

  void fault(const Path& path, std::string got, std::string allowed = "") {
    state_.record(0,
                  {file_at(path.source, file_),
                   static_cast<int>(path.source.begin.line),
                   name_ + "." + path.verb + "." + std::string(path.text),
                   std::move(got),
                   std::move(allowed)});
  }

  // Every value that enters the tree does so through one of these two, so that none is taken for
  // the copy of another that stood at the same address.
  void put_copy(const Target& target,
                const toml::source_region& source,
                const toml::node& original) {
    target.put_copy(source, original);
    state_.track(original, *target.value());
  }
  void put_made(const Target& target, const toml::source_region& source, toml::node&& value) {
    target.put(source, std::move(value));
    state_.origins.erase(target.value());
  }

  const toml::table* values_of(const toml::table& entry, const char* verb) {
    const toml::node* node = entry.get(verb);
    if (node == nullptr) return nullptr;
    if (node->is_table()) return node->as_table();
    fault({"", node->source(), verb}, kind_of(*node), "paths with their values");
    return nullptr;
  }

  void drop_all(const toml::node& drop) {
    const toml::array* paths = drop.as_array();
    if (paths == nullptr) return drop_one(drop);
    for (const toml::node& item : *paths) drop_one(item);
  }

  void drop_one(const toml::node& item) {
    const auto* text = item.as_string();
    if (text == nullptr) {
      return fault({"", item.source(), "drop"}, kind_of(item), "the path of a key");
    }
    const Path path{text->get(), item.source(), "drop"};
    const auto target = find(path, Missing::kRefused);
    if (!target) return;
    if (target->value() == nullptr) return fault(path, "is not in the case");
    target->erase();
  }

  void set_one(const toml::key& key, const toml::node& value) {
    const Path path{key.str(), key.source(), "set"};
    if (const auto target = find(path, Missing::kMade)) put_copy(*target, path.source, value);
  }

  void add_one(const toml::key& key, const toml::node& value) {
    const Path path{key.str(), key.source(), "add"};
    if (!value.is_table()) return fault(path, kind_of(value), "a table");
    const auto target = find(path, Missing::kMade);
    if (!target) return;
    toml::node* there = target->value();
    if (there == nullptr || !there->is_array()) {
      if (there != nullptr && !there->is_table() && !there->is_string()) {
        return fault(path, std::string("is ") + kind_of(*there), "tables");
      }
      make_list(*target, path.source);
    }
    toml::array& list = *target->value()->as_array();
    list.push_back(value);
    state_.track(value, *list.get(list.size() - 1));
  }

  // Replaces what is at the target by a list that holds it, or by an empty list.
  void make_list(const Target& target, const toml::source_region& source) {
    toml::node* there = target.value();
    toml::array tables;
    const toml::node* original = nullptr;
    if (there != nullptr) {
      const auto known = state_.origins.find(there);
      if (known != state_.origins.end()) original = known->second;
      tables.push_back(std::move(*there));
    }
    put_made(target, source, std::move(tables));
    if (there == nullptr) return;
    // The table has moved; what it holds has not.
    const toml::node* moved = target.value()->as_array()->get(0);
    state_.origins.erase(moved);
    if (original != nullptr) state_.origins[moved] = original;
  }

  /// The table at a target, which may be an include that is read now. Records a fault and returns
  /// null if there is none.
  toml::table* entered(const Path& path, const Target& target) {
    toml::node* node = target.value();
    if (const auto* name = node->as_string()) {
      const std::filesystem::path around = file_at(state_.source_of(*name), file_);
      const std::string file = (around.parent_path() / name->get()).lexically_normal().string();
      try {
        toml::table table = parse_toml(state_.read(file, kMostCaseBytes), file);
        put_made(target, path.source, std::move(table));
        node = target.value();
      } catch (const InputError& error) {
        fault(path, error.faults().front().message());
        return nullptr;
      }
    }
    if (!node->is_table())
      fault(path, std::string("leads through ") + kind_of(*node), "a path through tables");
    return node->as_table();
  }

  std::optional<Target> find(const Path& path, Missing missing) {
    const std::vector<std::string> parts = parts_of(path.text);
    toml::table* table = &root();
    for (std::size_t i = 0;; ++i) {
      Target target{table, parts[i], nullptr, 0};
      if (i + 1 == parts.size()) return target;
      if (target.value() == nullptr) {
        if (missing == Missing::kRefused) {
          fault(path, "is not in the case");
          return std::nullopt;
        }
        put_made(target, path.source, toml::table{});
      }
      if (toml::array* array = target.value()->as_array()) {
        const auto place = place_in(*array, parts[++i]);
        if (!place) {
          fault(path, quoted(parts[i]), places_text(*array));
          return std::nullopt;
        }
        target = {nullptr, "", array, *place};
        if (i + 1 == parts.size()) return target;
      }
      table = entered(path, target);
      if (table == nullptr) return std::nullopt;
    }
  }

  CaseNode::State& state_;
  std::string file_;
  std::string name_;  // of the array that holds the current edit, for messages
};

struct CaseEdits::Parsed {
  std::string file;
  toml::table edits;
  std::string base_file;
  toml::table base_tree;              // where the base is a file of its own
  const toml::table* base = nullptr;  // in `edits` or in `base_tree`
  std::shared_ptr<FileTexts> files;

  void load_base();
};

// The base is the table at the key `case`, or the file that the key names.
void CaseEdits::Parsed::load_base() {
  const toml::node* node = edits.get(kCaseKey);
  if (node == nullptr) {
    throw InputError(Fault{file, 0, kCaseKey, "missing", "a case: a table or a file's name"});
  }
  const int line = static_cast<int>(node->source().begin.line);
  if (const auto* name = node->as_string()) {
    const std::filesystem::path around(file);
    base_file = (around.parent_path() / name->get()).lexically_normal().string();
    try {
      CaseNode::State state;
      state.files = files;
      base_tree = parse_toml(state.read(base_file, kMostCaseBytes), base_file);
    } catch (const InputError& error) {
      const Fault& why = error.faults().front();
      if (why.line > 0) throw;
      throw InputError(Fault{file, line, kCaseKey, why.message(), ""});
    }
    base = &base_tree;
    return;
  }
  base_file = file;
  base = node->as_table();
  if (base == nullptr) {
    throw InputError(Fault{file, line, kCaseKey, kind_of(*node), "a table or a file's name"});
  }
}

CaseEdits::CaseEdits(const std::string& text,
                     const std::string& file,
                     std::shared_ptr<FileTexts> files) {
  auto parsed = std::make_shared<Parsed>();
  parsed->file = file;
  parsed->edits = parse_toml(text, file);
  parsed->files = std::move(files);
  parsed->load_base();
  parsed_ = std::move(parsed);
}

CaseFile CaseEdits::apply(const std::vector<CaseEdit>& edits) const {
  CaseFile made;
  made.state_ = std::make_shared<CaseNode::State>();
  CaseNode::State& state = *made.state_;
  state.files = parsed_->files;
  state.originals = parsed_;
  auto document = std::make_unique<CaseNode::State::Document>();
  document->file = parsed_->base_file;
  document->table = *parsed_->base;
  state.track(*parsed_->base, document->table);
  state.documents.push_back(std::move(document));
  CaseEditor editor(state, parsed_->file);
  for (const CaseEdit& edit : edits) {
    const toml::array* array = parsed_->edits[edit.array].as_array();
    const toml::node* entry = array == nullptr ? nullptr : array->get(edit.index);
    if (entry == nullptr) continue;
    if (entry->is_table()) {
      editor.apply(edit.array, *entry->as_table());
    } else {
      made.fault({parsed_->file,
                  state.line_of(*entry),
                  edit.array,
                  kind_of(*entry),
                  "a table in this file"});
    }
  }
  std::ostringstream tree;
  tree << toml::toml_formatter(state.documents[0]->table) << '\n';
  state.documents[0]->text = tree.str();
  return made;
}

CaseFile CaseFile::edited(const std::string& text,
                          const std::string& file,
                          const std::vector<CaseEdit>& edits,
                          std::shared_ptr<FileTexts> files) {
  return CaseEdits(text, file, std::move(files)).apply(edits);
}
}  // namespace ovendays::base
