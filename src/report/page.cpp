// The page template with style, program, plan and shapes put in. Nothing in report.html asks the network for
// anything; the served page asks its own server only.

#include "aftercut/report/page.hpp"

#include <vector>

#include "aftercut/core/require.hpp"
#include "layers.hpp"

extern "C" {
extern const char aftercut_page_html_begin[], aftercut_page_html_end[];
extern const char aftercut_page_css_begin[], aftercut_page_css_end[];
extern const char aftercut_page_js_begin[], aftercut_page_js_end[];
extern const char aftercut_served_html_begin[], aftercut_served_html_end[];
}

namespace aftercut::report {
namespace {

std::string_view between(const char* begin, const char* end) {
  return {begin, static_cast<std::size_t>(end - begin)};
}

// JSON inside a script element: "<" as \u003c, so that no text in it can end the element.
std::string json_for_page(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    if (c == '<') {
      out += "\\u003c";
    } else {
      out += c;
    }
  }
  return out;
}

struct Slot {
  std::string_view mark;
  std::string text;
};

// One pass over the template, so that nothing put in is looked at again.
std::string filled(std::string_view page, const std::vector<Slot>& slots) {
  std::string out;
  for (const auto& slot : slots) {
    const std::size_t at = page.find(slot.mark);
    require(at != std::string_view::npos, "the page template has its marks in order");
    out += page.substr(0, at);
    out += slot.text;
    page.remove_prefix(at + slot.mark.size());
  }
  return out += page;
}

}  // namespace

PageFiles page_files() {
  return {between(aftercut_page_js_begin, aftercut_page_js_end),
          between(aftercut_page_css_begin, aftercut_page_css_end)};
}

std::string report_html(const std::string& plan_json, const farm::Farm& farm) {
  const std::string plan = json::parse(plan_json).dump();
  return filled(between(aftercut_page_html_begin, aftercut_page_html_end),
                {{"@@TITLE@@", html_attribute(farm.name)},
                 {"@@STYLE@@", std::string{page_files().style}},
                 {"@@PLAN@@", json_for_page(plan)},
                 {"@@SHAPES@@", json_for_page(page_shapes(farm).dump())},
                 {"@@PROGRAM@@", std::string{page_files().program}}});
}

std::string served_page_html(const ServedPage& page) {
  const bool there = page.plan_json != nullptr;
  return filled(between(aftercut_served_html_begin, aftercut_served_html_end),
                {{"@@TITLE@@", there ? html_attribute(page.farm->name) : "aftercut"},
                 {"@@SERVED@@", json_for_page(json{{"plan", page.plan_id}}.dump())},
                 {"@@PLAN@@", there ? json_for_page(json::parse(*page.plan_json).dump()) : "null"},
                 {"@@SHAPES@@", there ? json_for_page(page_shapes(*page.farm).dump()) : "null"}});
}

}  // namespace aftercut::report
