// The command that writes the journal: options.
#include "add_commands.hpp"

namespace aftercut::app {

void add_record(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "record", "Write down what was done and seen, in the farm's journal",
              "aftercut record fields/demo A1 disk 12.5 ha 4 h --with T2,Ana --on 2026-10-14", record);
  sub->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  sub->add_option("WORDS", o.words,
                  "What was done or seen, as docs/journal.md lists it: \"A1 disk finished\"")
      ->expected(0, -1);
  sub->add_option("--with", o.with, "Machines and people that did it, with commas between")
      ->delimiter(',')
      ->allow_extra_args(false);
  sub->add_option("--on", o.day, "Day on which it was done, YYYY-MM-DD (default: today)");
  sub->add_option("--by", o.by, "Who says so (default: the name of this computer's user)");
  sub->add_option("--note", o.note, "A line to keep with it");
  sub->add_option("--id", o.id, "Id of the entry: recorded twice, it stands once (default: drawn at random)");
  sub->add_option("--now", o.now, "Time to record it under, like 2026-10-14T18:03:22Z (default: the clock)");
  sub->add_option("--import", o.import,
                  "CSV file of entries, columns done_on, what, field, with, by, note, id");
  sub->add_flag("--list", o.list, "Show the journal");
  sub->add_flag("--dry-run", o.dry_run, "Check it, write nothing");
  sub->add_flag("--json", o.json, "Entries, or issues, as JSON on standard output");
}

}  // namespace aftercut::app
