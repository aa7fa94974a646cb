#include "next_weather.hpp"

#include <fmt/format.h>

#include <vector>

#include "aftercut/core/save_file.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    if (!lines.back().empty() && lines.back().back() == '\r') lines.back().pop_back();
    at = end + 1;
  }
  return lines;
}

struct Table {
  std::vector<weather::Row> rows;
  std::string text;
  std::vector<std::string> lines;
};

std::optional<Table> table_of(const Object& part, const std::filesystem::path& folder) {
  Table t{read_weather_rows(part, Folder{folder}).rows, {}, {}};
  const auto text = read_file(folder / part.text_or("file", ""));
  if (t.rows.empty() || !text.ok()) return std::nullopt;
  t.text = text.value();
  t.lines = lines_of(t.text);
  return t;
}

std::string not_alike(const Object& record, const Object& so_far, const Table& a, const Table& b) {
  if (record.child("columns").json() != so_far.child("columns").json() || a.lines.front() != b.lines.front())
    return "their columns differ";
  const auto plain = [](const Table& t) { return t.lines.size() == t.rows.size() + 1; };
  if (!plain(a) || !plain(b)) return "a table has lines that are no days";
  const Date last = a.rows.back().date;
  if (b.rows.back().date <= last) return "the record has these days already";
  if (b.rows.front().date > last + 1)
    return fmt::format("the days from {} to {} are in neither", iso(last + 1), iso(b.rows.front().date - 1));
  return "";
}

}  // namespace

NextWeather next_weather(const Object& top, const std::filesystem::path& folder) {
  const Object record = top.child("weather"), so_far = top.child("weather_so_far");
  if (!so_far.has("file")) return {};
  const auto a = table_of(record, folder), b = table_of(so_far, folder);
  if (!a || !b) return {};
  const std::string file = so_far.text_or("file", "");
  if (const std::string why = not_alike(record, so_far, *a, *b); !why.empty())
    return {std::nullopt, fmt::format("{} was not put into the weather record: {}", file, why)};
  std::string text = a->text;
  if (text.back() != '\n') text += '\n';
  for (std::size_t k = 0; k < b->rows.size(); ++k)
    if (b->rows[k].date > a->rows.back().date) text += b->lines[k + 1] + "\n";
  return {text, ""};
}

}  // namespace aftercut::farm
