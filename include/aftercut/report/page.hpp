#pragma once
// The page in two forms: whole in one file, for a disk; and as a server gives it out, with program and style
// beside it.

#include <string>
#include <string_view>

#include "aftercut/farm/farm.hpp"

namespace aftercut::report {

/// The self-contained page, made from plan.json's text and the field shapes alone.
std::string report_html(const std::string& plan_json, const farm::Farm& farm);

/// What the served page loads: /page.js and /page.css.
struct PageFiles {
  std::string_view program, style;
};
PageFiles page_files();

struct ServedPage {
  std::string plan_id;
  const std::string* plan_json = nullptr;  ///< null: there is no plan yet, the page waits for it
  const farm::Farm* farm = nullptr;
};
/// The same page for a server. Holds no script and no style that is run in place.
std::string served_page_html(const ServedPage& page);

}  // namespace aftercut::report
