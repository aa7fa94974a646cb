// The truck sheet as plain lines for a message.

#include "exports_parts.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

constexpr std::size_t message_width = 60;

bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

std::size_t width_of(const std::string& text) {
  std::size_t n = 0;
  for (const char c : text) n += begins_character(c) ? 1 : 0;
  return n;
}

/// Words laid into lines of at most 60 characters; a longer word is broken, never cut off.
struct Lines {
  std::string out, line;
  std::string indent;

  void end_line() {
    out += line + "\n";
    line = indent;
  }
  void put(const std::string& word) {
    const bool fresh = line.find_first_not_of(' ') == std::string::npos;
    if (!fresh && width_of(line) + 1 + width_of(word) > message_width) end_line();
    if (line.find_first_not_of(' ') != std::string::npos) line += ' ';
    for (std::size_t at = 0; at < word.size();) {
      std::size_t next = at + 1;
      while (next < word.size() && !begins_character(word[next])) ++next;
      if (width_of(line) == message_width) end_line();
      line += word.substr(at, next - at);
      at = next;
    }
  }
};

/// One paragraph; its later lines are indented.
std::string laid(const std::string& first, const std::string& text, const std::string& later) {
  Lines lines{.out = {}, .line = first, .indent = later};
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find_first_of(" \n\r\t", at), text.size());
    if (end > at) lines.put(text.substr(at, end - at));
    at = end + 1;
  }
  return lines.out + lines.line + "\n";
}

std::string field_lines(const TruckRow& r) {
  std::string out = "\n" + laid("", r.field + ", " + r.area, " ");
  out += laid(" ", r.method, "   ");
  if (!r.job.empty()) out += laid(" ", "next: " + r.job + ", " + r.when, "   ");
  if (!r.who.empty()) out += laid(" ", "who: " + r.who, "   ");
  for (const std::string& t : r.instead) out += laid(" ", t, "   ");
  for (const std::string& t : r.water) out += laid(" ", t, "   ");
  if (!r.keep_out.empty()) out += laid(" ", "keep out: " + list_of(r.keep_out, "; "), "   ");
  return out;
}

}  // namespace

std::string truck_sheet_text(const Plan& plan) {
  std::string out = laid("", plan.farm + ": truck sheet", " ") + laid("", plan_day_words(plan), "");
  for (const TruckRow& r : truck_rows(plan)) out += field_lines(r);
  out += "\n";
  for (const std::string& t : truck_back(plan)) out += laid("", t, " ");
  const auto rows = worth_rows(plan);
  out += rows.empty() ? laid("", no_worth_words(plan), " ")
                      : std::string{"A tenth more would save a year (a rough guide):\n"};
  for (const auto& r : rows)
    out += laid(" ", r[0] + " (" + r[1] + "): " + r[2] + ", give or take " + r[3], "   ");
  return out;
}

}  // namespace aftercut::report::sheets
