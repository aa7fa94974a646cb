// Writes every output of the invented farm into a folder: `sample_page FOLDER [si]`.

#include <iostream>
#include <string>

#include "aftercut/report/report.hpp"
#include "sample_farm.hpp"

int main(int argc, char** argv) {
  using namespace aftercut;
  if (argc < 2) return 2;
  const bool si = argc > 2 && std::string{argv[2]} == "si";
  const auto s = test::sample(si ? farm::UnitSystem::si : farm::UnitSystem::us);
  const auto out = report::write(s.problem, s.planned, s.audit, argv[1]);
  for (const auto& issue : out.issues()) std::cerr << to_text(issue) << '\n';
  std::cout << report::summary_text(s.problem, s.planned, s.audit) << '\n'
            << report::compare_text(s.problem, s.planned, 0);
  return out.ok() ? 0 : 1;
}
