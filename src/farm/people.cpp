// Operators: skills, wages, days off.

#include <fmt/format.h>

#include <algorithm>

#include "parts.hpp"

namespace aftercut::farm {
namespace {

const std::vector<std::string> weekdays{"monday", "tuesday",  "wednesday", "thursday",
                                        "friday", "saturday", "sunday"};

std::vector<std::string> skills_asked_for(const method::Book& book) {
  std::set<std::string> skills;
  for (const method::Operation& op : book.operations)
    if (!op.skill.empty()) skills.insert(op.skill);
  return {skills.begin(), skills.end()};
}

std::vector<std::string> read_skills(const Object& o, const std::vector<std::string>& known) {
  std::vector<std::string> skills = o.texts("skills");
  for (std::size_t i = 0; i < skills.size(); ++i)
    if (std::find(known.begin(), known.end(), skills[i]) == known.end())
      o.fault(fmt::format("skills[{}]", i), in_quotes(skills[i]),
              "skills that a method asks for: " + listed(known),
              did_you_mean(skills[i], known, "take it out"));
  std::sort(skills.begin(), skills.end());
  return skills;
}

std::vector<int> read_weekdays_off(const Object& o) {
  std::set<int> days;
  for (const std::string& name : o.texts("weekdays_off")) {
    const auto at = std::find(weekdays.begin(), weekdays.end(), name);
    if (at != weekdays.end()) days.insert(static_cast<int>(at - weekdays.begin()));
  }
  if (days.size() == weekdays.size())
    o.fault("weekdays_off", "all seven days", "at least one working day a week",
            "take the operator out, or use `away`");
  return {days.begin(), days.end()};
}

Operator read_operator(const Object& o, const std::string& currency, const std::vector<std::string>& skills) {
  Operator person;
  person.id.value = o.text_or("id", "");
  person.name = o.text_or("name", person.id.value);
  person.skills = read_skills(o, skills);
  person.wage_per_h = Money{o.money("wage", "h", currency, {0.0, 1e4}).value_or(0.0)};
  person.paid = o.yes("paid").value_or(true);
  person.hours_per_day = Hours{o.number("hours_per_day", {1.0, 16.0}).value_or(person.hours_per_day.value())};
  person.away = read_ranges(o, "away");
  person.weekdays_off = read_weekdays_off(o);
  return person;
}

}  // namespace

std::vector<Operator> read_operators(const Object& top, const std::string& currency,
                                     const method::Book& book) {
  std::vector<Operator> out;
  const std::vector<std::string> skills = skills_asked_for(book);
  for (const Object& o : top.list("operators")) out.push_back(read_operator(o, currency, skills));
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return natural_less(a.id.value, b.id.value); });
  return out;
}

}  // namespace aftercut::farm
