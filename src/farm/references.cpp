// Names in one place that must exist in another.

#include <fmt/format.h>

#include <algorithm>

#include "parts.hpp"

namespace aftercut::farm {
namespace {

template <class Values>
bool holds(const Values& values, const typename Values::value_type& one) {
  return std::find(values.begin(), values.end(), one) != values.end();
}

void check_links(const ReadField& f, const std::vector<std::string>& ids) {
  const Object links = f.values.child("links");
  for (const char* kind : {"fills_from", "drains_to", "seeps_from"}) {
    const std::vector<std::string> others = links.texts(kind);
    for (std::size_t i = 0; i < others.size(); ++i) {
      const std::string key = fmt::format("{}[{}]", kind, i);
      if (others[i] == f.field.id.value)
        links.fault(key, "the field itself", "another field", "take it out");
      else if (!holds(ids, others[i]))
        links.fault(key, in_quotes(others[i]), "the id of a field",
                    did_you_mean(others[i], ids, "correct the id"));
    }
  }
}

/// Water that would have to come from itself.
void check_circle(const std::vector<ReadField>& fields, LinkKind kind, const char* key) {
  const auto next = [&](const std::string& id) {
    std::vector<std::string> out;
    for (const ReadField& f : fields)
      if (f.field.id.value == id)
        for (const Link& link : f.field.links)
          if (link.kind == kind) out.push_back(link.other.value);
    return out;
  };
  for (const ReadField& f : fields) {
    const auto others = next(f.field.id.value);
    if (holds(others, f.field.id.value)) continue;  // told already
    std::vector<std::string> open = next(f.field.id.value), seen;
    while (!open.empty()) {
      const std::string id = open.back();
      open.pop_back();
      if (holds(seen, id)) continue;
      seen.push_back(id);
      for (const std::string& other : next(id)) open.push_back(other);
    }
    if (holds(seen, f.field.id.value))
      f.values.child("links").fault(key, "a chain that comes back to the field", "no circle of fields",
                                    "take one of the links out");
  }
}

void check_methods(const ReadField& f, const std::vector<std::string>& methods) {
  const auto barred = f.values.list("not_allowed");
  bool locked_barred = false;
  for (const Object& o : barred) {
    const auto method = o.text("method");
    if (!method) continue;
    if (!holds(methods, *method))
      o.fault("method", in_quotes(*method), "one of " + listed(methods),
              did_you_mean(*method, methods, "correct the method's id"));
    locked_barred = locked_barred || (f.field.locked && f.field.locked->value == *method);
  }
  if (!f.field.locked) return;
  const std::string& locked = f.field.locked->value;
  if (!holds(methods, locked))
    f.values.fault("locked", in_quotes(locked), "one of " + listed(methods),
                   did_you_mean(locked, methods, "correct the method's id"));
  else if (locked_barred)
    f.values.fault("locked", in_quotes(locked) + ", which not_allowed bars", "a method that the field takes",
                   "lock another method or take it out of not_allowed");
}

}  // namespace

void check_references(const std::vector<ReadField>& fields, const FieldSetting& setting) {
  std::vector<std::string> ids, methods;
  for (const ReadField& f : fields) ids.push_back(f.field.id.value);
  for (const MethodId& m : setting.methods) methods.push_back(m.value);
  for (const ReadField& f : fields) {
    check_links(f, ids);
    check_methods(f, methods);
  }
  check_circle(fields, LinkKind::fills_from, "fills_from");
  check_circle(fields, LinkKind::drains_to, "drains_to");
}

}  // namespace aftercut::farm
