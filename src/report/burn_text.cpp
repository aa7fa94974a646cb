// The standing of fields on a day for the terminal: each field's in a line, then the rows that say so, each
// once.

#include <algorithm>

#include "burn_groups.hpp"
#include "burn_words.hpp"

namespace aftercut::report {
namespace {

using Standings = std::vector<season::BurnStanding>;

std::string field_line(const farm::Farm& farm, const season::BurnStanding& s) {
  const farm::Field& field = farm.fields.at(s.field);
  const std::string name = field.name == field.id.value ? "" : field.name;
  return fmt::format("{} {} {}  {}\n", fit(field.id.value, 8), fit(name, 18),
                     fit(fmt::format("{:.1f}", field.area.value() * units_of(farm).area_per_ha), 7, true),
                     standing_words(farm, s));
}

std::string field_table(const farm::Farm& farm, const Standings& fields) {
  std::string out = fmt::format("{} {} {}  {}\n", fit("Field", 8), fit("", 18),
                                fit(units_of(farm).area, 7, true), "Comes to");
  out += std::string(terminal_width, '-') + "\n";
  for (const season::BurnStanding& s : fields) out += field_line(farm, s);
  return out;
}

/// Fields of the same standing: their ids, and the rows behind it.
struct Group {
  std::string standing;
  std::vector<std::string> ids;
  std::vector<SharedRow> rows;
};

/// Groups in the order of their first field.
std::vector<Group> groups_of(const farm::Farm& farm, const Standings& fields) {
  std::vector<Group> groups;
  std::vector<std::vector<RowsOf>> rows;
  for (const season::BurnStanding& s : fields) {
    const std::string words = standing_words(farm, s);
    std::size_t g = 0;
    while (g < groups.size() && groups[g].standing != words) ++g;
    if (g == groups.size()) {
      groups.push_back({words, {}, {}});
      rows.emplace_back();
    }
    rows[g].push_back({groups[g].ids.size(), s.finding.rows});
    groups[g].ids.push_back(farm.fields.at(s.field).id.value);
  }
  for (std::size_t g = 0; g < groups.size(); ++g) groups[g].rows = shared_rows(rows[g]);
  return groups;
}

/// "all", "all but A4, B3" or "A4, B3", whichever is shortest; nothing in a group of one field.
std::string whose(const Group& group, const std::vector<std::size_t>& fields) {
  if (group.ids.size() == 1) return "";
  if (fields.size() == group.ids.size()) return " [all]";
  const bool but = 2 * fields.size() > group.ids.size();
  std::vector<std::string> ids;
  for (std::size_t k = 0; k < group.ids.size(); ++k) {
    const bool in = std::find(fields.begin(), fields.end(), k) != fields.end();
    if (in != but) ids.push_back(group.ids[k]);
  }
  return fmt::format(" [{}{}]", but ? "all but " : "", fmt::join(ids, ", "));
}

std::string row_text(const Group& group, const SharedRow& row, const std::string& common) {
  std::string text = fmt::format("{}", fmt::join(row.names, ", "));
  text += (text.empty() ? "" : ": ") + row.quote;
  if (!row.source.empty() && row.source != common) text += ", " + row.source;
  for (const SharedReason& r : row.reasons)
    text += (r.why.empty() ? "" : "; " + r.why) + whose(group, r.fields);
  return "  " + wrapped("- " + text, terminal_width - 2, 4) + "\n";
}

std::string group_text(const Group& group, const std::string& common) {
  const std::string who =
      group.ids.size() == 1 ? "field " + group.ids.front() : fmt::format("{} fields", group.ids.size());
  std::string out = fmt::format("\n{}, {}:\n", group.standing, who);
  for (const SharedRow& row : group.rows) out += row_text(group, row, common);
  return out;
}

std::string rows_text(const std::vector<Group>& groups) {
  std::vector<SharedRow> all;
  for (const Group& g : groups) all.insert(all.end(), g.rows.begin(), g.rows.end());
  const std::string common = common_source(all);
  std::string out;
  if (!common.empty())
    out = "\n" +
          wrapped(fmt::format("Rows below, unless they name another: {}.", common), terminal_width, 0) + "\n";
  for (const Group& g : groups) out += group_text(g, common);
  return out;
}

}  // namespace

std::string burn_text(const farm::Farm& farm, const Standings& fields) {
  if (fields.empty()) return "no fields\n";
  const std::string title =
      fmt::format("Burning, {}: what the rows entered come to on {}. {}", farm.name, iso(fields.front().day),
                  farm.burning ? fmt::format("The authority is {}.", farm.burning->authority)
                               : "No rules of an authority are entered.");
  return wrapped(title, terminal_width, 0) + "\n\n" + field_table(farm, fields) +
         rows_text(groups_of(farm, fields)) + "\n" +
         wrapped(
             "The named authority decides, on the day. Local rules, the fire service and licensed practice "
             "come before anything printed here.",
             terminal_width, 0) +
         "\n";
}

}  // namespace aftercut::report
