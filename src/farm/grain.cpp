// Straw load from grain: own yields, and tickets that hold the grain of several fields.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

constexpr double default_ticket_moisture_percent = 14.0;  // as for a field

struct Ticket {
  std::string name;
  std::vector<std::string> fields;
  double grain_kg = 0.0;
  double moisture = 0.14;
};

std::vector<Ticket> read_tickets(const Object& top) {
  std::vector<Ticket> out;
  std::set<std::string> seen;
  for (const Object& o : top.list("tickets")) {
    Ticket t;
    t.name = o.text_or("name", "");
    t.fields = o.texts("fields");
    t.grain_kg = o.quantity("grain", "kg", {0.0, 1e9}).value_or(0.0);
    t.moisture = o.quantity("moisture", "%", {0.0, 40.0}).value_or(default_ticket_moisture_percent) / 100.0;
    if (!seen.insert(t.name).second)
      o.fault("name", in_quotes(t.name) + " twice", "each ticket once", "rename one or add the two up");
    out.push_back(std::move(t));
  }
  return out;
}

std::vector<std::string> names_of(const std::vector<Ticket>& tickets) {
  std::vector<std::string> names;
  for (const Ticket& t : tickets) names.push_back(t.name);
  return names;
}

/// Each field's ticket by the tickets' own lists and by the fields' ticket attribute; issues for names that
/// do not exist.
std::vector<ReadField> assigned(std::vector<ReadField> fields, const std::vector<Ticket>& tickets,
                                const Object& top) {
  const std::vector<Object> objects = top.list("tickets");
  std::vector<std::string> ids;
  for (const ReadField& f : fields) ids.push_back(f.field.id.value);
  for (std::size_t t = 0; t < tickets.size(); ++t) {
    for (std::size_t i = 0; i < tickets[t].fields.size(); ++i) {
      const std::string key = fmt::format("fields[{}]", i), &id = tickets[t].fields[i];
      const auto at = std::find(ids.begin(), ids.end(), id);
      if (at == ids.end()) {
        objects[t].fault(key, in_quotes(id), "the id of a field", did_you_mean(id, ids, "correct the id"));
        continue;
      }
      Field& f = fields[static_cast<std::size_t>(at - ids.begin())].field;
      if (!f.pooled_ticket.empty())
        objects[t].fault(key, fmt::format("field {} on ticket {} too", id, in_quotes(f.pooled_ticket)),
                         "one ticket a field", "take it off one of the two");
      f.pooled_ticket = tickets[t].name;
    }
  }
  for (const ReadField& f : fields) {
    const std::string& name = f.field.pooled_ticket;
    const auto known = names_of(tickets);
    if (!name.empty() && std::find(known.begin(), known.end(), name) == known.end())
      f.values.fault("ticket", in_quotes(name), "the name of one of `tickets`",
                     did_you_mean(name, known, "add the ticket or correct the name"));
  }
  return fields;
}

ReadField with_load(ReadField f) {
  if (f.field.load_given) return f;
  const Object& v = f.values;
  if (v.has(v.key_of("straw_load")) || (!f.field.grain && v.has(v.key_of("yield"))))
    return f;  // faulty, and told
  if (!f.field.grain) {
    f.values.fault(
        "yield", "nothing", "a yield, a straw_load, a ticket or a yield map",
        "add a column yield_kg_per_ha or yield_lb_per_acre, or an entry in field_values or tickets");
    return f;
  }
  const KgPerHa dry = straw::dry_grain(*f.field.grain, Fraction{f.moisture});
  f.field.straw_load = straw::straw_load(dry, Fraction{f.harvest_index});
  return f;
}

struct Shared {
  std::vector<ReadField> fields;
  std::string note;
};

using Mapped = std::vector<std::optional<KgPerHa>>;  ///< [field], dry grain by a yield map

/// The fields on a ticket, and whether the map holds all of them, so that they share by mapped grain.
struct Members {
  std::vector<std::size_t> fields;
  bool by_map = false;
};

Members members_of(const std::vector<ReadField>& fields, const Ticket& t, const Mapped& mapped) {
  Members out;
  for (std::size_t f = 0; f < fields.size(); ++f)
    if (fields[f].field.pooled_ticket == t.name) out.fields.push_back(f);
  out.by_map = out.fields.size() > 1 && std::all_of(out.fields.begin(), out.fields.end(),
                                                    [&](std::size_t f) { return mapped[f].has_value(); });
  return out;
}

Shared share_out(std::vector<ReadField> fields, const Ticket& t, const Mapped& mapped) {
  const Members members = members_of(fields, t, mapped);
  const auto per_ha = [&](std::size_t f) { return members.by_map ? mapped[f]->value() : 1.0; };
  double sum = 0.0;
  std::vector<std::string> ids;
  for (const std::size_t f : members.fields) {
    sum += per_ha(f) * fields[f].field.area.value();
    ids.push_back(fields[f].field.id.value);
  }
  for (const std::size_t i : members.fields) {
    ReadField& f = fields[i];
    if (f.field.grain)
      f.values.fault(f.values.key_of("yield"), "a yield and a ticket", "one of the two",
                     "keep the ticket or the field's own yield");
    f.field.grain = KgPerHa{t.grain_kg * per_ha(i) / sum};
    f.moisture = t.moisture;
  }
  return {std::move(fields),
          fmt::format("Ticket {}: {:.1f} t of grain shared out by {} over fields {}", t.name,
                      t.grain_kg / 1000.0, members.by_map ? "the yield map" : "area", listed(ids))};
}

/// The map's mean where there is nothing better.
ReadField with_mapped_grain(ReadField f, std::optional<KgPerHa> mapped) {
  const bool has_own = f.field.grain || f.field.load_given || f.values.has(f.values.key_of("yield")) ||
                       f.values.has(f.values.key_of("straw_load"));
  if (mapped && !has_own) f.field.grain = *mapped / (1.0 - f.moisture);
  return f;
}

}  // namespace

Strawed share_out_grain(std::vector<ReadField> fields, const Object& top, const Mapped& mapped) {
  const std::vector<Ticket> tickets = read_tickets(top);
  fields = assigned(std::move(fields), tickets, top);
  Strawed out;
  for (const Ticket& t : tickets) {
    Shared shared = share_out(std::move(fields), t, mapped);
    fields = std::move(shared.fields);
    out.notes.push_back(std::move(shared.note));
  }
  for (std::size_t f = 0; f < fields.size(); ++f)
    out.fields.push_back(with_load(with_mapped_grain(std::move(fields[f]), mapped[f])).field);
  return out;
}

}  // namespace aftercut::farm
