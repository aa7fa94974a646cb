#include "aftercut/core/json_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <vector>

namespace aftercut {
namespace {

using nlohmann::json;

std::string place_of(std::string_view text, std::size_t byte) {
  const std::size_t end = std::min(byte, text.size());
  const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
  const std::size_t start = end == 0 ? std::string_view::npos : text.rfind('\n', end - 1);
  const std::size_t column = start == std::string_view::npos ? end + 1 : end - start;
  return fmt::format("line {}, column {}", line, column);
}

/// The parser's own words behind the last " - ", without its list of tokens.
std::string core_of(const std::string& message) {
  const std::size_t dash = message.find(" - ");
  std::string said = dash == std::string::npos ? message : message.substr(dash + 3);
  const std::size_t expected = said.find("; expected");
  if (expected != std::string::npos) said.resize(expected);
  return in_ascii(said);
}

Issue syntax_issue(const std::string& message, std::size_t byte, std::string_view text,
                   const std::string& file) {
  const std::string said = core_of(message);
  const std::string place = place_of(text, byte == 0 ? 0 : byte - 1);
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
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

/// Follows the parser, which goes on while the answers are true.
class Watch {
 public:
  Watch(std::string_view text, std::string file) : text_{text}, file_{std::move(file)} {}

  bool null() { return next(); }
  bool boolean(bool /*value*/) { return next(); }
  bool number_integer(json::number_integer_t /*value*/) { return next(); }
  bool number_unsigned(json::number_unsigned_t /*value*/) { return next(); }
  bool number_float(json::number_float_t /*value*/, const json::string_t& /*text*/) { return next(); }
  bool string(const json::string_t& /*value*/) { return next(); }
  bool binary(const json::binary_t& /*value*/) { return next(); }
  bool start_object(std::size_t /*members*/) { return deeper(false); }
  bool start_array(std::size_t /*members*/) { return deeper(true); }
  bool end_object() { return out(); }
  bool end_array() { return out(); }
  bool key(const json::string_t& name) {
    frames_.back().key = name;
    if (!frames_.back().keys.insert(name).second)
      issues.push_back(
          {file_, path(), "the same key twice", "each key once in an object", "keep one of the two"});
    return true;
  }
  bool parse_error(std::size_t byte, const std::string& last, const json::exception& error) {
    // The parser has gone to the end of the number that it could not hold.
    if (dynamic_cast<const json::out_of_range*>(&error) != nullptr)
      issues = {{file_, place_of(text_, byte - std::min(byte, last.size())),
                 fmt::format("the number {}", last.substr(0, 40)), "a number below 1e308",
                 "write the number that is meant"}};
    else
      issues = {syntax_issue(error.what(), byte, text_, file_)};
    return false;
  }
  Issues issues;

 private:
  struct Frame {
    bool list;
    int index;
    std::string key;
    std::set<std::string> keys;
  };
  bool next() {
    if (!frames_.empty() && frames_.back().list) ++frames_.back().index;
    return true;
  }
  bool deeper(bool list) {
    if (frames_.size() == deepest_json) {
      issues = {{file_, path(),
                 fmt::format("more than {} lists and objects within one another", deepest_json),
                 "a value that is nested less deep", "take the inner lists or objects out"}};
      return false;
    }
    frames_.push_back({list, 0, "", {}});
    return true;
  }
  bool out() {
    frames_.pop_back();
    return next();
  }
  [[nodiscard]] std::string path() const {
    std::string all;
    for (const Frame& f : frames_) {
      if (f.list)
        all += fmt::format("[{}]", f.index);
      else
        all += (all.empty() ? "" : ".") + f.key;
    }
    return all.empty() ? "whole file" : all;  // where every key is an empty text
  }

  std::string_view text_;
  std::string file_;
  std::vector<Frame> frames_;
};

}  // namespace

std::string in_ascii(std::string words) {
  std::ranges::replace_if(
      words, [](char c) { return static_cast<unsigned char>(c) > 0x7EU; }, '?');
  return words;
}

Issues json_text_faults(std::string_view text, const std::string& file) {
  Watch watch{text, file};
  json::sax_parse(text, &watch);
  return watch.issues;
}

}  // namespace aftercut
