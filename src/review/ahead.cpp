#include "aftercut/review/ahead.hpp"

#include "aftercut/core/folder_lock.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/review/rush.hpp"
#include "aftercut/review/watch.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::review {

Result<std::vector<plan::Look>> looks_in(const std::filesystem::path& folder) {
  if (!std::filesystem::exists(folder / looks_file)) return std::vector<plan::Look>{};
  const auto text = read_file(folder / looks_file);
  if (!text.ok()) return text.issues();
  return read_looks(text.value(), looks_file);
}

Result<std::vector<plan::Look>> keep_look(const std::filesystem::path& folder, const plan::Look& look) {
  const auto lock = FolderLock::take(folder);
  if (!lock.ok()) return lock.issues();
  const auto kept = looks_in(folder);
  if (!kept.ok()) return kept;
  std::vector<plan::Look> looks = with(kept.value(), look);
  const auto saved = save_file(folder / looks_file, looks_text(looks));
  if (!saved.ok()) return saved.issues();
  return looks;
}

plan::Ahead look_ahead(const farm::Problem& problem, const plan::Decision& stands,
                       const std::vector<plan::Look>& looks, const scenario::SearchOptions& options) {
  scenario::SearchOptions played{.seed = options.seed, .threads = options.threads};
  const scenario::Carried carried = scenario::carried_over(problem, stands, problem, played);
  played.decision = carried.decision;
  played.progress = options.progress;
  const plan::PlannedYears planned = scenario::make_plan(problem, played);
  const dispatch::Table table = dispatch::make_table(problem, options.seed);
  plan::Ahead ahead{.look = look_at(problem, planned.plan)};
  if (const plan::Look* last = before(looks, ahead.look.day)) {
    ahead.before = *last;
    ahead.changes = changes_between(*last, ahead.look);
  }
  ahead.calls = calls_of(ahead.look);
  ahead.storm = storm_list(table, carried.decision, options.threads);
  return ahead;
}

}  // namespace aftercut::review
