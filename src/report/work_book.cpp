// work.xlsx by libxlsxwriter: fields, work, dates to keep, money by month. Cells are texts, numbers and days;
// nothing in them is ever a formula.

#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "aftercut/core/require.hpp"
#include "aftercut/core/save_file.hpp"
#include "exports_parts.hpp"
#include "parts.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

namespace fs = std::filesystem;

/// A file of its own beside nothing, gone with the value: the library writes only to files.
class OwnFile {
 public:
  OwnFile() : path_{(fs::temp_directory_path() / "aftercut-xlsx-XXXXXX").string()} {
    const int file = ::mkstemp(path_.data());
    if (file >= 0) ::close(file);
    made_ = file >= 0;
  }
  OwnFile(const OwnFile&) = delete;
  OwnFile& operator=(const OwnFile&) = delete;
  ~OwnFile() {
    std::error_code ignored;
    if (made_) fs::remove(path_, ignored);
  }
  [[nodiscard]] bool made() const { return made_; }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
  bool made_ = false;
};

struct Formats {
  lxw_format *head, *text, *day, *whole, *one, *two, *share;
};

Formats formats_of(lxw_workbook* book) {
  const auto numbers = [&](const char* pattern) {
    lxw_format* f = workbook_add_format(book);
    format_set_num_format(f, pattern);
    format_set_align(f, LXW_ALIGN_VERTICAL_TOP);
    return f;
  };
  lxw_format* head = workbook_add_format(book);
  format_set_bold(head);
  format_set_text_wrap(head);
  format_set_bottom(head, LXW_BORDER_MEDIUM);
  format_set_align(head, LXW_ALIGN_VERTICAL_TOP);
  lxw_format* text = workbook_add_format(book);
  format_set_text_wrap(text);
  format_set_align(text, LXW_ALIGN_VERTICAL_TOP);
  return {
      head,         text, numbers("yyyy-mm-dd"), numbers("#,##0"), numbers("#,##0.0"), numbers("#,##0.00"),
      numbers("0%")};
}

struct Heading {
  std::string words;
  double width = 12.0;  ///< in characters
};

/// One sheet, filled cell by cell, row by row.
class SheetOut {
 public:
  SheetOut(lxw_workbook* book, const Formats& formats, const char* name, const std::vector<Heading>& heads)
      : sheet_{workbook_add_worksheet(book, name)}, formats_{formats}, name_{name} {
    for (std::size_t c = 0; c < heads.size(); ++c) {
      const auto column = static_cast<lxw_col_t>(c);
      worksheet_set_column(sheet_, column, column, heads[c].width, nullptr);
      worksheet_write_string(sheet_, 0, column, heads[c].words.c_str(), formats_.head);
    }
    worksheet_freeze_panes(sheet_, 1, 1);
    worksheet_repeat_rows(sheet_, 0, 0);
    worksheet_set_landscape(sheet_);
    worksheet_fit_to_pages(sheet_, 1, 0);
  }
  void row() { ++row_, column_ = 0; }
  void text(const std::string& t) {
    const lxw_error e =
        t.empty() ? LXW_NO_ERROR : worksheet_write_string(sheet_, row_, column_, t.c_str(), formats_.text);
    if (e == LXW_ERROR_MAX_STRING_LENGTH_EXCEEDED)
      issues.push_back({"plan.json", fmt::format("sheet {}, row {}", name_, row_ + 1),
                        fmt::format("a text of {} bytes: {}…", t.size(), t.substr(0, 20)),
                        "at most 32,767 characters in a cell", "shorten the name in the farm folder"});
    else
      require(e == LXW_NO_ERROR, "a text can be written into a cell");
    ++column_;
  }
  void day(const std::optional<Date>& d) {
    if (d) {
      lxw_datetime at{year_of(*d), month_of(*d), day_of_month(*d), 0, 0, 0.0};
      worksheet_write_datetime(sheet_, row_, column_, &at, formats_.day);
    }
    ++column_;
  }
  void whole(double x) { number(x, formats_.whole); }
  void one(double x) { number(x, formats_.one); }
  void two(double x) { number(x, formats_.two); }
  void share(double x) { number(x, formats_.share); }
  void blank() { ++column_; }
  Issues issues;

 private:
  void number(double x, lxw_format* format) { worksheet_write_number(sheet_, row_, column_++, x, format); }

  lxw_worksheet* sheet_;
  Formats formats_;
  const char* name_;
  lxw_row_t row_ = 0;
  lxw_col_t column_ = 0;
};

const Units& shown_units(const Plan& plan) {
  return units_of(plan.us ? farm::UnitSystem::us : farm::UnitSystem::si);
}

void field_row(SheetOut& out, const Plan& plan, const Field& f) {
  const Units& u = shown_units(plan);
  out.row();
  out.text(f.id), out.text(f.name), out.one(f.area_ha * u.area_per_ha), out.text(f.soil);
  out.text(f.cut ? "yes" : "no"), out.day(f.harvest), out.day(f.planting);
  out.whole(f.load * u.mass_per_kg_ha), out.text(method_name(plan, f.method, en)), out.text(f.lay);
  out.whole(f.cut_height_cm * u.length_per_cm);
  if (const Outcome* o = chosen_outcome(f)) {
    out.two(o->cost_per_ha / u.area_per_ha), out.two(o->cost),
        out.text(o->ready ? ready_text(plan, *o->ready) : "nothing due");
    f.planting ? out.share(o->chance_ready) : out.blank();
    out.one(o->water_m3 * u.water_per_m3), out.one(o->labour_h), out.one(o->fuel_l * u.fuel_per_l);
    out.whole(o->co2e * u.mass_per_kg_ha);
  } else {
    for (int k = 0; k < 8; ++k) out.blank();
  }
  const Job* next = next_job(f);
  out.text(next == nullptr ? "" : operation_name(plan, next->operation, en));
  out.text(next == nullptr ? "" : when_words(when_of(*next, plan.forecast_until), en));
  std::vector<std::string> instead;
  for (const FallBack& b : f.hangs_on) instead.push_back(fall_back_words(plan, b));
  out.text(list_of(instead, "\n"));
}

Issues fields_sheet(lxw_workbook* book, const Formats& formats, const Plan& plan) {
  const Units& u = shown_units(plan);
  const std::string area = u.area, mass = u.mass_per_area;
  SheetOut out{book,
               formats,
               "Fields",
               {{"Field", 8},
                {"Name", 20},
                {"Area, " + area, 9},
                {"Soil", 14},
                {"Cut", 6},
                {"Harvest", 11},
                {"Planting", 11},
                {"Straw, " + mass, 10},
                {"Method", 22},
                {"Straw lies", 10},
                {std::string{"Stubble, "} + u.length, 9},
                {"Cost, " + plan.currency + "/" + area, 11},
                {"Cost, " + plan.currency, 12},
                {"Ready, middle of years", 18},
                {"Ready by planting, share of years", 12},
                {std::string{"Canal water, "} + u.water, 11},
                {"People, h", 9},
                {std::string{"Fuel, "} + u.fuel, 9},
                {"CO2e, " + mass, 10},
                {"Next job", 18},
                {"When", 26},
                {"If it does not come", 46}}};
  for (const Field& f : plan.fields) field_row(out, plan, f);
  return out.issues;
}

struct JobOfField {
  const Field* field;
  const Job* job;
};

Issues work_sheet(lxw_workbook* book, const Formats& formats, const Plan& plan) {
  SheetOut out{book,
               formats,
               "Work",
               {{"Order", 7},
                {"Field", 8},
                {"Name", 20},
                {"Job", 22},
                {"Step", 6},
                {"Pass", 6},
                {"Fall-back", 9},
                {"Years with it", 9},
                {"Of years", 8},
                {"From", 11},
                {"To", 11},
                {"Known to the", 9},
                {"When", 32},
                {"Who, with what", 36}}};
  std::vector<JobOfField> all;
  for (const Field& f : plan.fields)
    for (const Job& j : f.jobs) all.push_back({&f, &j});
  std::ranges::stable_sort(all, {}, [](const JobOfField& x) { return x.job->first.p50; });
  int order = 0;
  for (const auto& [f, j] : all) {
    const When when = when_of(*j, plan.forecast_until);
    out.row();
    out.whole(++order), out.text(f->id), out.text(f->name), out.text(operation_name(plan, j->operation, en));
    out.whole(j->step + 1), out.whole(j->pass + 1), out.text(j->fell_back ? "yes" : "no");
    out.whole(j->years_done), out.whole(j->years), out.day(when.from), out.day(when.to);
    out.text(when.to_the_day ? "day" : "week"), out.text(when_words(when, en));
    out.text(who_with(plan, row_of(plan, *f, *j)));
  }
  return out.issues;
}

Issues dates_sheet(lxw_workbook* book, const Formats& formats, const Plan& plan) {
  SheetOut out{book,
               formats,
               "Dates to keep",
               {{"By", 11}, {"Known to the", 9}, {"What", 40}, {"Why", 40}, {"Fields", 20}, {"Source", 30}}};
  for (const KeepDate& d : plan.dates) {
    out.row();
    out.day(d.by), out.text(d.worked_out ? "week" : "day"), out.text(d.what), out.text(d.why);
    out.text(list_of(d.fields)), out.text(d.source.value_or(""));
  }
  return out.issues;
}

Issues money_sheet(lxw_workbook* book, const Formats& formats, const Plan& plan) {
  std::vector<Heading> heads{{"Month", 9}};
  for (std::string part : plan.cash_parts) {
    std::replace(part.begin(), part.end(), '_', ' ');
    heads.push_back({capital(part), 13});
  }
  for (const char* words : {"Sum", "Low year (1 in 10)", "High year (1 in 10)"})
    heads.push_back({fmt::format("{}, {}", words, plan.currency), 14});
  SheetOut out{book, formats, "Money by month", heads};
  for (const Month& m : plan.cash) {
    out.row();
    out.text(m.month);
    for (const double part : m.parts) out.two(part);
    out.two(m.sum), out.two(m.p10), out.two(m.p90);
  }
  return out.issues;
}

/// The book's own day is the plan's: no clock.
void set_properties(lxw_workbook* book, const Plan& plan) {
  lxw_doc_properties properties{};
  std::string title = "Work and money of the plan";
  properties.title = title.data();
  properties.created = static_cast<time_t>(plan.as_of.days()) * 86400;
  workbook_set_properties(book, &properties);
}

}  // namespace

Result<std::string> work_book(const Plan& plan) {
  const OwnFile file;
  const Issues refused{{file.path(), "work.xlsx", "a folder for passing files that refuses them",
                        "room and rights in the folder that TMPDIR names", "free some space or set TMPDIR"}};
  if (!file.made()) return refused;
  lxw_workbook* book = workbook_new(file.path().c_str());
  require(book != nullptr, "a work book can be made");
  set_properties(book, plan);
  const Formats formats = formats_of(book);
  Issues issues;
  for (auto* sheet : {fields_sheet, work_sheet, dates_sheet, money_sheet})
    for (Issue& issue : sheet(book, formats, plan)) issues.push_back(std::move(issue));
  if (workbook_close(book) != LXW_NO_ERROR) issues.insert(issues.end(), refused.begin(), refused.end());
  if (!issues.empty()) return issues;
  return read_file(file.path());
}

}  // namespace aftercut::report::sheets
