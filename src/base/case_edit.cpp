// SPDX-License-Identifier: MIT
// Builds a case from a base case and edits. Values are moved from one TOML tree into the other, not
// copied: a moved node remembers the file and line it was read from, which a copy does not.
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

  void load_base(toml::table& edits);

  void apply(const std::string& array, toml::table& entry) {
    if (toml::node* whole = entry.get("use")) {
      const auto& source = whole->source();
      root().insert_or_assign(toml::key(array, source), std::move(*whole));
    }
    name_ = array;
    if (toml::node* drop = entry.get("drop")) drop_all(*drop);
    if (toml::table* set = values_of(entry, "set")) {
      for (auto&& [path, value] : *set) set_one(path, value);
    }
    if (toml::table* add = values_of(entry, "add")) {
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

  toml::table* values_of(toml::table& entry, const char* verb) {
    toml::node* node = entry.get(verb);
    if (node == nullptr) return nullptr;
    if (node->is_table()) return node->as_table();
    fault({"", node->source(), verb}, kind_of(*node), "paths with their values");
    return nullptr;
  }

  void drop_all(toml::node& drop) {
    toml::array one;
    toml::array* paths = drop.as_array();
    if (paths == nullptr) {
      one.push_back(std::move(drop));
      paths = &one;
    }
    for (const toml::node& item : *paths) {
      const auto* text = item.as_string();
      if (text == nullptr) {
        fault({"", item.source(), "drop"}, kind_of(item), "the path of a key");
        continue;
      }
      const Path path{text->get(), item.source(), "drop"};
      const auto target = find(path, Missing::kRefused);
      if (!target) continue;
      if (target->value() == nullptr) {
        fault(path, "is not in the case");
      } else {
        target->erase();
      }
    }
  }

  void set_one(const toml::key& key, toml::node& value) {
    const Path path{key.str(), key.source(), "set"};
    if (const auto target = find(path, Missing::kMade)) target->put(path.source, std::move(value));
  }

  void add_one(const toml::key& key, toml::node& value) {
    const Path path{key.str(), key.source(), "add"};
    if (!value.is_table()) return fault(path, kind_of(value), "a table");
    const auto target = find(path, Missing::kMade);
    if (!target) return;
    toml::node* there = target->value();
    if (there == nullptr || !there->is_array()) {
      if (there != nullptr && !there->is_table() && !there->is_string()) {
        return fault(path, std::string("is ") + kind_of(*there), "tables");
      }
      toml::array tables;
      if (there != nullptr) tables.push_back(std::move(*there));
      target->put(path.source, std::move(tables));
    }
    target->value()->as_array()->push_back(std::move(value));
  }

  /// The table at a target, which may be an include that is read now. Records a fault and returns
  /// null if there is none.
  toml::table* entered(const Path& path, const Target& target) {
    toml::node* node = target.value();
    if (const auto* name = node->as_string()) {
      const std::filesystem::path around = file_at(name->source(), file_);
      const std::string file = (around.parent_path() / name->get()).lexically_normal().string();
      try {
        toml::table table = parse_toml(state_.read(file, kMostCaseBytes), file);
        target.put(path.source, std::move(table));
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
        target.put(path.source, toml::table{});
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

// The base is the table at the key `case`, or the file that the key names.
void CaseEditor::load_base(toml::table& edits) {
  toml::node* base = edits.get(kCaseKey);
  if (base == nullptr) {
    throw InputError(Fault{file_, 0, kCaseKey, "missing", "a case: a table or a file's name"});
  }
  const int line = line_at(*base);
  if (const auto* name = base->as_string()) {
    const std::filesystem::path around(file_);
    const std::string path = (around.parent_path() / name->get()).lexically_normal().string();
    try {
      state_.add_document(path, state_.read(path, kMostCaseBytes), -1);
    } catch (const InputError& error) {
      const Fault& why = error.faults().front();
      if (why.line > 0) throw;
      throw InputError(Fault{file_, line, kCaseKey, why.message(), ""});
    }
    return;
  }
  if (!base->is_table()) {
    throw InputError(Fault{file_, line, kCaseKey, kind_of(*base), "a table or a file's name"});
  }
  state_.add_document(file_, "", -1);
  root() = std::move(*base->as_table());
}

CaseFile CaseFile::edited(const std::string& text,
                          const std::string& file,
                          const std::vector<CaseEdit>& edits,
                          std::shared_ptr<FileTexts> files) {
  toml::table source = parse_toml(text, file);
  CaseFile made;
  made.state_ = std::make_shared<CaseNode::State>();
  made.state_->files = std::move(files);
  CaseEditor editor(*made.state_, file);
  editor.load_base(source);
  for (const CaseEdit& edit : edits) {
    toml::array* array = source[edit.array].as_array();
    toml::node* entry = array == nullptr ? nullptr : array->get(edit.index);
    if (entry == nullptr) continue;
    if (entry->is_table()) {
      editor.apply(edit.array, *entry->as_table());
    } else {
      made.fault({file, line_at(*entry), edit.array, kind_of(*entry), "a table in this file"});
    }
  }
  std::ostringstream tree;
  tree << toml::toml_formatter(made.state_->documents[0]->table) << '\n';
  made.state_->documents[0]->text = tree.str();
  return made;
}
}  // namespace ovendays::base
