// report.html: the page template with style, program, plan and shapes put in. Nothing in it asks the network
// for anything.

#include <array>
#include <string_view>

#include "aftercut/core/require.hpp"
#include "aftercut/report/report.hpp"
#include "layers.hpp"

extern "C" {
extern const char aftercut_page_html_begin[], aftercut_page_html_end[];
extern const char aftercut_page_css_begin[], aftercut_page_css_end[];
extern const char aftercut_page_js_begin[], aftercut_page_js_end[];
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
std::string filled(std::string_view page, const std::array<Slot, 5>& slots) {
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

std::string report_html(const std::string& plan_json, const farm::Farm& farm) {
  const std::string plan = json::parse(plan_json).dump();
  const std::array<Slot, 5> slots{{
      {"@@TITLE@@", html_attribute(farm.name)},
      {"@@STYLE@@", std::string{between(aftercut_page_css_begin, aftercut_page_css_end)}},
      {"@@PLAN@@", json_for_page(plan)},
      {"@@SHAPES@@", json_for_page(page_shapes(farm).dump())},
      {"@@PROGRAM@@", std::string{between(aftercut_page_js_begin, aftercut_page_js_end)}},
  }};
  return filled(between(aftercut_page_html_begin, aftercut_page_html_end), slots);
}

}  // namespace aftercut::report
