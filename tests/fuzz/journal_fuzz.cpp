// The journal. The first byte says how the rest is taken: r, as the file's own bytes; s, as lines whose sums
// are made right first; m, as choices of which entries are made. Then put into a small fixed farm.

#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/journal/log.hpp"
#include "season.hpp"

namespace {

using namespace aftercut;
using namespace aftercut::journal;

/// Each line that ends as an object does, with its chained sum as its last key: keys are sorted, and no other
/// comes behind "sum".
std::string with_sums(std::string_view text) {
  constexpr std::size_t sum_digits = 16;
  std::string out, sum;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string line{text.substr(0, end)};
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.ends_with('}')) {
      sum = sha256_hex(sum + line).substr(0, sum_digits);
      out += line.substr(0, line.size() - 1) + R"(,"sum":")" + sum + "\"}\n";
    } else {
      out += line + "\n";
    }
  }
  return out;
}

/// Bytes as choices; at their end every choice is the first.
class Choices {
 public:
  explicit Choices(std::string_view bytes) : bytes_{bytes} {}
  [[nodiscard]] bool more() const { return !bytes_.empty(); }
  unsigned below(unsigned count) { return byte() % count; }
  bool yes() { return below(2) == 1; }
  /// Zero and the ends of a range more often than chance has them.
  double up_to(double most) {
    const unsigned how = below(8);
    if (how == 0) return 0.0;
    if (how == 1) return most;
    if (how == 2) return most * static_cast<double>(byte()) / 255.0;
    return most / 100.0 * static_cast<double>(byte()) / 255.0;
  }
  std::optional<double> maybe_up_to(double most) { return yes() ? std::optional{up_to(most)} : std::nullopt; }
  std::string one_of(const std::vector<std::string>& words) {
    return words[below(static_cast<unsigned>(words.size()))];
  }

 private:
  unsigned byte() {
    if (bytes_.empty()) return 0;
    const auto first = static_cast<unsigned char>(bytes_.front());
    bytes_.remove_prefix(1);
    return first;
  }
  std::string_view bytes_;
};

const std::vector<std::string> operations{"rake", "bale", "haul", "chop", "disk",  "boards_in", "boards_out",
                                          "burn", "fill", "mow",  "roll", "plane", "chisel"};
const std::vector<std::string> whoever{"T1", "D1", "O1", "R1", "B1", "W1", "C1", "F1", "nobody"};
const std::vector<std::string> methods{"chop_disk", "burn",       "bale", "bale_disk",
                                       "flood",     "bale_flood", "none"};

/// Most days are of the season.
Date day_by(Choices& c) {
  const unsigned how = c.below(16);
  if (how == 0) return make_date(1400, 1, 1);
  if (how == 1) return make_date(9999, 12, 31);
  return make_date(2026, 8, 31) + static_cast<int>(c.below(44));
}

Worked work_by(Choices& c) {
  Worked w;
  w.operation = c.one_of(operations);
  w.area_ha = c.maybe_up_to(10000.0);
  w.finished = c.yes();
  w.no_more = c.below(4) == 1;
  w.by_others = c.below(4) == 1;
  if (!w.area_ha && !w.no_more) w.finished = true;
  if (c.yes()) w.with = {c.one_of(whoever)};
  w.hours = c.maybe_up_to(240.0);
  w.board_cm = c.maybe_up_to(200.0);
  return w;
}

What what_by(Choices& c) {
  switch (c.below(12)) {
    case 0:
      return Harvested{c.maybe_up_to(40000.0), c.one_of({"", "windrow", "spread", "chopped"}),
                       c.maybe_up_to(200.0)};
    case 1:
      return Rain{c.up_to(1500.0)};
    case 2:
      return Looked{c.yes(), c.maybe_up_to(300.0), c.maybe_up_to(100.0), c.maybe_up_to(40000.0)};
    case 3:
      return BurnWord{BurnWord::What::answered, "the desk", "after noon"};
    case 4:
      return Water{c.yes() ? Water::What::on : Water::What::off, {}, {}};
    case 5:
      return Water{Water::What::metered, {}, c.up_to(1.0e7)};
    case 6:
      return Bales{c.up_to(1.0e6), c.maybe_up_to(1.0e6)};
    case 7: {
      Presence p{static_cast<Presence::What>(c.below(3)), c.one_of(whoever), {}};
      if (p.what == Presence::What::down && c.yes()) p.until = day_by(c);
      return p;
    }
    case 8: {
      Word w{static_cast<Word::What>(c.below(4)), "", {}, c.one_of({"", "ruts"})};
      if (w.what == Word::What::method || w.what == Word::What::not_method) w.method = c.one_of(methods);
      if (w.what == Word::What::too_wet && c.yes()) w.until = day_by(c);
      return w;
    }
    case 9:
      return TakenBack{};
    default:
      return work_by(c);
  }
}

std::string made_by(Choices c) {
  constexpr std::size_t most = 60;
  std::vector<Entry> entries;
  while (c.more() && entries.size() < most) {
    Entry e;
    e.seq = static_cast<int>(entries.size()) + 1;
    e.id = "e" + std::to_string(e.seq);
    e.what = what_by(c);
    e.done_on = day_by(c);
    e.recorded_at = c.below(8) == 1 ? "2026-09-29T08:00:00Z" : "2026-09-20T18:03:22Z";
    e.by = "Ana";
    const bool taken = std::holds_alternative<TakenBack>(e.what);
    if (taken && e.seq == 1) continue;
    if (!taken && !std::holds_alternative<Presence>(e.what))
      e.field = FieldId{c.one_of({"A", "B", "A", "B", "Z"})};
    if (std::holds_alternative<Rain>(e.what) && c.yes()) e.field.reset();
    if (taken || (e.seq > 1 && c.below(8) == 1))
      e.corrects = 1 + static_cast<int>(c.below(static_cast<unsigned>(e.seq) - 1));
    entries.push_back(std::move(e));
  }
  return log_text(entries);
}

void check_whole_part(const Log& log, const std::string& text) {
  fuzz::must(log.torn == text.substr(log.whole_bytes), "what is torn follows what is whole");
  const auto whole = read_log_text(text.substr(0, log.whole_bytes));
  fuzz::must(whole.ok() && whole.value().entries == log.entries && whole.value().torn.empty() &&
                 whole.value().sum == log.sum,
             "the whole part alone is read the same");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::SeasonFolder season{"journal"};
  const std::string bytes = fuzz::text_of(data, size);
  if (bytes.empty() || std::string_view{"rsm"}.find(bytes[0]) == std::string_view::npos) return -1;
  const std::string rest = bytes.substr(1);
  const std::string text = bytes[0] == 'r'   ? rest
                           : bytes[0] == 's' ? with_sums(rest)
                                             : made_by(Choices{rest});
  const auto read = read_log_text(text);
  if (!read.ok()) {
    fuzz::must(bytes[0] != 'm', "entries made without faults are read: " + fuzz::checked(read.issues()));
    fuzz::must(fuzz::checked(read_log_text(text).issues()) == fuzz::checked(read.issues()),
               "the same bytes are read the same");
    return 0;
  }
  check_whole_part(read.value(), text);
  fuzz::check_entries(read.value().entries);
  fuzz::check_season(season.problem(), read.value().entries);
  return 0;
}
