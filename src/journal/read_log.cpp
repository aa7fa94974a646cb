#include <fmt/format.h>

#include <map>

#include "aftercut/journal/log.hpp"
#include "entry_json.hpp"

namespace aftercut::journal {
namespace {

constexpr std::size_t longest_line = 100000;
constexpr int deepest = 4;  // of objects and lists in an entry's JSON, and one to spare

std::string beginning(std::string_view line) {
  if (line.empty()) return "an empty line";
  std::string text;
  for (const char c : line.substr(0, 60)) text += c >= ' ' && c <= '~' ? c : '?';
  return line.size() > 60 ? text + "..." : text;
}

/// What a line holds; nothing where it is no JSON object as the program writes it, byte for byte.
std::optional<Json> parsed(std::string_view line) {
  if (line.size() > longest_line) return std::nullopt;
  const auto shallow = [](int depth, Json::parse_event_t, Json&) { return depth <= deepest; };
  Json json = Json::parse(line, shallow, false);
  if (json.is_discarded() || !json.is_object() || json.dump() != line) return std::nullopt;
  return json;
}

/// The lines of a journal, read one after the other.
class Reading {
 public:
  explicit Reading(std::string file) : file_{std::move(file)} {}

  /// `last`: nothing follows it; `ended`: by a newline.
  void take(std::string_view line, bool last, bool ended) {
    ++line_;
    const auto json = ended ? parsed(line) : std::nullopt;
    const bool sound = json && has_sum(*json);
    if (last && !sound) {
      log_.torn = line;
      if (ended) log_.torn += '\n';
      return;
    }
    log_.whole_bytes += line.size() + 1;
    if (!json) {
      fault(beginning(line), "an entry as aftercut record writes it",
            "put the line back from a copy of the journal; nothing after it was changed");
      return;
    }
    if (!sound)
      fault(fmt::format("sum {}", json->contains("sum") ? (*json)["sum"].dump() : "missing"),
            fmt::format("sum \"{}\": this line or the one before was changed, or one between them is gone",
                        wanted(*json)),
            "put the lines back from a copy of the journal; to mend an entry, record a correction of it");
    const auto sum = json->find("sum");
    log_.sum = sum != json->end() && sum->is_string() ? sum->get<std::string>() : "";
    note(*json);
  }

  Result<Log> result() {
    if (!issues_.empty()) return std::move(issues_);
    return std::move(log_);
  }

 private:
  [[nodiscard]] std::string wanted(Json json) const {
    json.erase("sum");
    return sum_of(log_.sum, json);
  }
  [[nodiscard]] bool has_sum(const Json& json) const {
    const auto sum = json.find("sum");
    return sum != json.end() && sum->is_string() && sum->get<std::string>() == wanted(json);
  }
  [[nodiscard]] std::string place() const { return fmt::format("line {}", line_); }
  void fault(const std::string& found, const std::string& expected, const std::string& fix) {
    issues_.push_back({file_, place(), found, expected, fix});
  }

  void note(const Json& json) {
    auto read = entry_of(json, file_, place());
    const Issues inside = read.issues();
    issues_.insert(issues_.end(), inside.begin(), inside.end());
    if (!read.ok()) {
      ++seq_;
      return;
    }
    Entry e = std::move(read).value();
    if (e.seq != seq_ + 1)
      fault(fmt::format("entry {}", e.seq), fmt::format("entry {}", seq_ + 1),
            "put the lines back in their order from a copy of the journal");
    seq_ = e.seq;
    if (e.corrects && *e.corrects >= e.seq)
      fault(fmt::format("corrects {}", *e.corrects), "the number of an entry before this one",
            "name an entry that is in the journal");
    const auto [at, fresh] = by_id_.emplace(e.id, e.seq);
    if (!fresh)
      fault(fmt::format("id {}", e.id), fmt::format("an id of its own; entry {} has it", at->second),
            "give the entry another id");
    log_.entries.push_back(std::move(e));
  }

  std::string file_;
  Log log_;
  Issues issues_;
  std::map<std::string, int> by_id_;
  int line_ = 0, seq_ = 0;
};

}  // namespace

Result<Log> read_log_text(std::string_view text, const std::string& file) {
  Reading reading{file};
  while (!text.empty()) {
    const auto end = text.find('\n');
    const bool ended = end != std::string_view::npos;
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(ended ? end + 1 : text.size());
    reading.take(line, text.empty(), ended);
  }
  return reading.result();
}

Result<Log> read_log(const std::filesystem::path& folder, Disk& disk) {
  const std::filesystem::path file = folder / file_name;
  const auto text = disk.read(file);
  if (!text.ok()) return text.issues();
  return read_log_text(text.value().value_or(""), file.string());
}

}  // namespace aftercut::journal
