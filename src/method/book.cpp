#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/json_text.hpp"
#include "aftercut/method/recipe.hpp"
#include "read_parts.hpp"

extern "C" {
extern const char aftercut_builtin_methods_begin[];
extern const char aftercut_builtin_methods_end[];
}

namespace aftercut::method {
namespace {

/// Puts `item` in the place of the one with its id, or at the end.
template <class T>
void put(std::vector<T>& items, T item) {
  const auto at =
      std::find_if(items.begin(), items.end(), [&](const T& other) { return other.id == item.id; });
  if (at == items.end())
    items.push_back(std::move(item));
  else
    *at = std::move(item);
}

void check_ids(const std::vector<ObjectReader>& list, const Log& log) {
  std::vector<std::string> seen;
  for (const ObjectReader& at : list) {
    const std::string id = at.text("id");
    if (!id.empty() && std::find(seen.begin(), seen.end(), id) != seen.end())
      log->add(at.place() + ".id", id, "an id that no other entry of the list has", "rename one of them");
    seen.push_back(id);
  }
}

bool works(const Book& book, const Recipe& recipe, bool (*is)(const Operation&)) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(), [&](const Step& step) {
    return is(book.operations[static_cast<std::size_t>(step.operation)]);
  });
}

void mark(Book& book) {
  for (Recipe& recipe : book.recipes) {
    recipe.burns = works(book, recipe, [](const Operation& op) { return op.burning; });
    recipe.bales = works(book, recipe, [](const Operation& op) { return op.effect.bale_share > 0.0; });
  }
}

/// Recipes that end with the old chain end with the new one.
void change_chain(Book& book, std::vector<Step> chain) {
  const std::vector<Step>& old = book.spring_chain;
  for (Recipe& recipe : book.recipes) {
    std::vector<Step>& steps = recipe.steps;
    if (steps.size() < old.size() || !std::equal(old.rbegin(), old.rend(), steps.rbegin())) continue;
    steps.resize(steps.size() - old.size());
    steps.insert(steps.end(), chain.begin(), chain.end());
  }
  book.spring_chain = std::move(chain);
}

Book read_onto(Book book, const ObjectReader& root, const Log& log) {
  root.only({"operations", "spring_chain", "methods"});
  const auto operations = root.objects("operations");
  const auto methods = root.objects("methods");
  check_ids(operations, log);
  check_ids(methods, log);
  for (const ObjectReader& at : operations) put(book.operations, read_operation(at));
  if (book.operations.empty()) {
    root.fault("operations", "at least one operation", "add it");
    return book;
  }
  if (root.has("spring_chain"))
    change_chain(book, read_steps(root.objects("spring_chain"), book.operations, Season::spring));
  for (const ObjectReader& at : methods)
    put(book.recipes, read_recipe(at, book.operations, book.spring_chain));
  mark(book);
  return book;
}

MonthDay later(MonthDay md) {
  constexpr int last_day[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const int month = md.month > 6 ? md.month - 6 : md.month + 6;
  return {month, std::min(md.day, last_day[month - 1])};
}

void move_dates(std::vector<Step>& steps) {
  for (Step& step : steps) {
    if (step.earliest) step.earliest = later(*step.earliest);
    if (step.give_up) step.give_up = later(*step.give_up);
  }
}

Result<Book> read(const Book& base, std::string_view text, const std::string& file) {
  if (Issues faults = json_text_faults(text, file); !faults.empty()) return faults;
  const Log log = std::make_shared<IssueLog>(file);
  const ObjectReader root{nlohmann::json::parse(text), "", log};
  const Book book = read_onto(base, root, log);
  if (log->empty()) check_book(book, *log);
  if (!log->empty()) return log->issues();
  return book;
}

}  // namespace

Result<Book> read_book(std::string_view json, const std::string& file) {
  Result<Book> book = read(Book{}, json, file);
  if (!book) return book;
  if (book.value().recipes.empty())
    return Issues{{file, "methods", "nothing", "at least one method", "add it"}};
  if (book.value().spring_chain.empty())
    return Issues{{file, "spring_chain", "nothing", "the steps of spring", "add them"}};
  return book;
}

const Book& builtin_book() {
  static const Book book =
      read_book({aftercut_builtin_methods_begin, aftercut_builtin_methods_end}, "built-in methods").value();
  return book;
}

Result<Book> extend(const Book& base, std::string_view json, const std::string& file) {
  return read(base, json, file);
}

Book half_a_year_later(Book book) {
  move_dates(book.spring_chain);
  for (Recipe& recipe : book.recipes) {
    move_dates(recipe.steps);
    if (recipe.water) recipe.water->draw_down = later(recipe.water->draw_down);
    if (recipe.fall_back) recipe.fall_back->start_by = later(recipe.fall_back->start_by);
  }
  return book;
}

}  // namespace aftercut::method
