#include "json_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercut/core/ids.hpp"

namespace aftercut::farm {
namespace {

std::string place_of(const std::string& text, std::size_t byte) {
  const std::size_t end = std::min(byte, text.size());
  const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
  const std::size_t start = end == 0 ? std::string::npos : text.rfind('\n', end - 1);
  const std::size_t column = start == std::string::npos ? end + 1 : end - start;
  return fmt::format("line {}, column {}", line, column);
}

/// The parser's own words behind the last " - ", without its list of tokens.
std::string core_of(const std::string& message) {
  const std::size_t dash = message.find(" - ");
  std::string said = dash == std::string::npos ? message : message.substr(dash + 3);
  const std::size_t expected = said.find("; expected");
  if (expected != std::string::npos) said.resize(expected);
  return said;
}

Issue syntax_issue(const Json::parse_error& e, const std::string& text, const std::string& file) {
  const std::string said = core_of(e.what());
  const std::string place = place_of(text, e.byte == 0 ? 0 : e.byte - 1);
  if (text.find_first_not_of(" \t\r\n") == std::string::npos)
    return {file, "whole file", "an empty file", "a JSON object",
            "write the file again, see docs/farm-folder.md"};
  if (said.find("UTF-8") != std::string::npos)
    return {file, place, "bytes that are not UTF-8 text", "UTF-8 text",
            "save the file again with UTF-8 encoding"};
  if (said.find("end of input") != std::string::npos)
    return {file, place, "the end of the file", "the rest of the JSON value",
            "the file is cut short: close its brackets or copy it again"};
  return {file, place, said, "JSON",
          "mend the text at or just before this place (comma, bracket, quotation mark)"};
}

Issue overflow_issue(const Json::out_of_range& e, const std::string& text, const std::string& file) {
  const std::string said = e.what();
  const std::size_t a = said.find('\''), b = said.rfind('\'');
  const std::string token = a < b ? said.substr(a + 1, b - a - 1) : "";
  const std::size_t at = token.empty() ? 0 : text.find(token);
  return {file, place_of(text, at == std::string::npos ? 0 : at),
          fmt::format("the number {}", token.substr(0, 40)), "a number below 1e308",
          "write the number that is meant"};
}

/// Follows the parser and notes keys that come twice in one object.
class KeyWatch {
 public:
  bool operator()(Json::parse_event_t event, const Json& parsed) {
    using Event = Json::parse_event_t;
    if (event == Event::object_start || event == Event::array_start) {
      frames_.push_back({event == Event::array_start, 0, "", {}});
    } else if (event == Event::object_end || event == Event::array_end) {
      frames_.pop_back();
      next_element();
    } else if (event == Event::value) {
      next_element();
    } else {
      Frame& top = frames_.back();
      top.key = parsed.get<std::string>();
      if (!top.keys.insert(top.key).second) twice.push_back(path());
    }
    return true;
  }
  std::vector<std::string> twice;

 private:
  struct Frame {
    bool list;
    int index;
    std::string key;
    std::set<std::string> keys;
  };
  void next_element() {
    if (!frames_.empty() && frames_.back().list) ++frames_.back().index;
  }
  [[nodiscard]] std::string path() const {
    std::string out;
    for (const Frame& f : frames_) {
      if (f.list)
        out += fmt::format("[{}]", f.index);
      else
        out += (out.empty() ? "" : ".") + f.key;
    }
    return out;
  }
  std::vector<Frame> frames_;
};

std::string name_in(const Json& o) {
  for (const char* key : {"id", "name"})
    if (o.is_object() && o.contains(key) && o[key].is_string()) return o[key].get<std::string>();
  return "";
}

Json sorted_lists(Json value) {
  for (Json& child : value)
    if (child.is_structured()) child = sorted_lists(std::move(child));
  const bool named = value.is_array() && std::all_of(value.begin(), value.end(),
                                                     [](const Json& v) { return !name_in(v).empty(); });
  if (named)
    std::stable_sort(value.begin(), value.end(), [](const Json& a, const Json& b) {
      const std::string x = name_in(a), y = name_in(b);
      return x != y ? natural_less(x, y) : a.dump() < b.dump();
    });
  return value;
}

}  // namespace

Result<Json> parse_json(const std::string& text, const std::string& file) {
  KeyWatch watch;
  try {
    const auto callback = [&watch](int, Json::parse_event_t event, Json& parsed) {
      return watch(event, parsed);
    };
    Json value = Json::parse(text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text, callback);
    if (watch.twice.empty()) return value;
  } catch (const Json::parse_error& e) {
    return Issues{syntax_issue(e, text, file)};
  } catch (const Json::out_of_range& e) {
    return Issues{overflow_issue(e, text, file)};
  }
  Issues issues;
  for (const std::string& path : watch.twice)
    issues.push_back({file, path, "the same key twice", "each key once in an object", "keep one of the two"});
  return issues;
}

std::string canonical(const Json& value) {
  return value.is_structured() ? sorted_lists(value).dump() : value.dump();
}

}  // namespace aftercut::farm
