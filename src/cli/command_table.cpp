#include "cli/command_table.h"

#include "cli/option_rows.h"

#include <lobewright/start.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

CommandRow start_row() {
    CommandRow row{Command::start, "start", "FILE --for PURPOSE", "write a commented job to begin from"};
    row.about = {
        "Writes a commented job to begin from. It passes `lobewright check` as it is; put your own "
        "engine and shop into it. A file that is there already stays untouched."};
    row.arguments = {{"FILE", &Options::job, Value::file}};
    row.list_title = "purposes";
    row.list = {{"offset-fixture", "lathe, the shaft swinging off centre in a fixture"},
                {"dividing-head", "mill with a dividing head"},
                {"rotary-mill", "mill with a rotary axis"},
                {"lathe-c", "lathe with a C axis and a live cutter"}};
    row.options = {valued("for", "PURPOSE", "what the job is for, one of the purposes above",
                          &Options::purpose, Value::word, starting_purposes()),
                   output_option("the same as FILE"), quiet_option(), help_option()};
    row.examples = {"start my-engine.toml --for rotary-mill"};
    return row;
}

CommandRow check_row() {
    CommandRow row{Command::check, "check", "JOB.toml",
                   "read, solve and judge the job: what is sound, what can be cut how"};
    row.about = {
        "Reads the job, solves every lobe and judges it: valve events, geometry, motion, contact, "
        "and for each cutter and each hand method one line that says whether it can cut the shaft (yes, but "
        "with what it warns of, no), "
        "and what it would leave."};
    row.arguments = {job_argument()};
    row.options = with_common({json_option()});
    row.examples = {"check my-engine.toml", "check my-engine.toml --json -o report.json"};
    return row;
}

CommandRow table_row() {
    CommandRow row{Command::table, "table", "JOB.toml --lobe NAME", "the polar lift table of a lobe"};
    row.about = {
        "The polar lift table of one lobe, from -180 to 180 degrees of cam angle: lift and its "
        "derivatives, the lobe's own radius, the point of contact, the radius of curvature there "
        "and the pressure angle. Lengths are in the job's units."};
    row.arguments = {job_argument()};
    row.options = with_common(
        {valued("lobe", "NAME", "the lobe; not needed where the job has only one", &Options::lobe),
         valued("every", "DEG", "a row every so many degrees of cam angle; 1 if not given",
                &Options::every_words),
         format_option({"csv", "json", "markdown"}),
         json_option("the same as --format json, for complaints too")});
    row.examples = {"table my-engine.toml --lobe \"1 inlet\"",
                    "table my-engine.toml --lobe \"1 inlet\" --every 0.5 -o inlet.csv"};
    return row;
}

CommandRow compare_row() {
    CommandRow row{Command::compare, "compare", "JOB.toml", "profiles, or laws of motion, side by side"};
    row.about = {
        "All profiles of the job side by side, a row each: area under the lift, speeds and accelerations, "
        "smallest radius, contact, and what the valve's timing makes of it. With --laws all laws of motion "
        "in the place of one profile, with its lift and its angles, or those that its timing card gives "
        "each of them."};
    row.arguments = {job_argument()};
    row.options = with_common(
        {valued("laws", "PROFILE", "all laws of motion in the place of this profile", &Options::laws),
         valued("lobe", "NAME",
                "the lobe whose follower and valve they are judged with; the first that uses the profile if "
                "not given",
                &Options::lobe),
         valued("format", "WORD", "csv, json or markdown; columns to read if not given",
                &Options::format_words, Value::word, {"csv", "json", "markdown"}),
         json_option("the same as --format json, for complaints too")});
    row.examples = {"compare my-engine.toml", "compare my-engine.toml --laws inlet --format csv -o laws.csv"};
    return row;
}

/// The cut that takes off what readings say is left.
std::vector<OptionRow> correction_options() {
    std::vector<OptionRow> own{
        valued(
            "correct", "FILE",
            "a second program that takes off what these readings of the lobes (as for inspect) say is left; "
            "wants --most",
            &Options::readings, Value::file),
        valued("most", "LENGTH",
               "with --correct: how far below the design, along the normal, the cutter may be led at most",
               &Options::most_words),
        valued("again", "SHARE",
               "with --correct: how much of the error the next cut makes again: 1 (if not given) as a wrong "
               "size "
               "of the cutter does, 0 as the spring of a deep cut doesn't",
               &Options::comes_again_words),
        wheel_option()};
    for (OptionRow& each : readings_file_options())
        own.push_back(std::move(each));
    return own;
}

std::vector<OptionRow> both(std::vector<OptionRow> first, std::vector<OptionRow> more) {
    for (OptionRow& each : more)
        first.push_back(std::move(each));
    return first;
}

CommandRow cut_row() {
    CommandRow row{Command::cut, "cut", "JOB.toml", "the program for a machine, proven before it is written"};
    row.about = {
        "The program that cuts the shaft on the job's [machine] with the cutter of its [cut]. The "
        "program's own text is proven first: one that would not cut the lobes within tolerance is "
        "not written.",
        "A job with several [[operation]] has a program for each, proven on what those before it leave: "
        "--operation NAME gives one, and {operation} in the name of -o stands for its name where all are "
        "wanted. Without either all of them are one program, on a machine that changes tools by itself.",
        "With --correct, a second program for lobes that stand proud: the cutter is led as far below the "
        "design as readings say that they stand above it, never more than --most, along the design where "
        "nothing is left, and lobes without readings are not touched. Places that are too deep are told. The "
        "program is proven against that corrected contour."};
    row.arguments = {job_argument()};
    row.options = with_common(
        both({post_option(), operation_option(), lobes_option(), from_option(),
              toggle("plan", "the passes, depths, blocks and times alone, no program", &Options::plan),
              toggle("force", "write over a file that is no program of ours, too", &Options::force),
              json_option("the plan, and complaints, for a program to read")},
             correction_options()));
    row.caution =
        "Before the first part: run the program above it or in wax or foam, stand clear, and "
        "follow the machine's manual.";
    row.examples = {"cut my-engine.toml --plan",
                    "cut my-engine.toml -o my-engine.ngc",
                    "cut my-engine.toml --post my-machine.toml -o my-engine.ngc",
                    "cut my-engine.toml --from \"3 inlet\" -o the-rest.ngc",
                    "cut my-engine.toml -o \"my-engine-{operation}.ngc\"",
                    "cut my-engine.toml --post my-turret.toml -o both-tools.ngc",
                    "cut my-engine.toml --correct readings.csv --most 0.02 -o second.ngc"};
    return row;
}

CommandRow prove_row() {
    CommandRow row{Command::prove, "prove", "JOB.toml PROGRAM",
                   "cut the shaft with a program's text and compare"};
    row.about = {
        "Reads a program as the controller would, cuts the shaft with it, and compares what is left "
        "with the design, lobe by lobe. The program may be written by hand or by anything else, if "
        "it names its axes as the post-processor does."};
    row.arguments = {job_argument(), {"PROGRAM", &Options::program, Value::file}};
    row.options =
        with_common(both({post_option(), operation_option(), lobes_option(), from_option(), json_option()},
                         correction_options()));
    row.examples = {"prove my-engine.toml my-engine.ngc", "prove my-engine.toml edited-by-hand.ngc --json",
                    "prove my-engine.toml second.ngc --correct readings.csv --most 0.02"};
    return row;
}

CommandRow index_row() {
    CommandRow row{Command::index, "index", "JOB.toml --method NAME", "the settings for cutting by hand"};
    row.about = {
        "The settings for cutting the shaft by hand, in the order of the work: marks of an index "
        "wheel, turns and holes of a dividing head, or degrees of a rotary table."};
    row.arguments = {job_argument()};
    row.options = with_common(
        {valued("method", "NAME", "one of the job's [hand] methods; not needed where it has only one",
                &Options::method),
         format_option({"markdown", "csv", "json"}),
         json_option("the same as --format json, for complaints too")});
    row.examples = {"index my-engine.toml --method lathe",
                    "index my-engine.toml --method head --format csv -o head.csv"};
    return row;
}

CommandRow draw_row() {
    CommandRow row{Command::draw, "draw", "JOB.toml --what THING", "a drawing at true scale"};
    row.about = {
        "A drawing at true scale, for paper, for CAD, or to cut a template by: a lobe with its dimensions, "
        "the "
        "shaft, the index wheel of an offset fixture with what is cut at each mark, the template of a nose, "
        "a "
        "degree wheel for the crankshaft, the motion of a follower. SVG is in mm of paper at its scale; DXF "
        "(release 12) has the thing's own size in the job's units, arcs as arcs, and the scale says how "
        "large "
        "its lettering is beside it."};
    row.arguments = {job_argument()};
    row.options = with_common(
        {valued("what", "THING", "lobe, shaft, wheel, nose, degree-wheel or motion", &Options::what,
                Value::word, {"lobe", "shaft", "wheel", "nose", "degree-wheel", "motion"}),
         valued("lobe", "NAME", "of lobe, nose and motion; not needed where the job has only one",
                &Options::lobe),
         valued("method", "NAME",
                "of wheel and nose: one of the job's [hand] methods; not needed where it has "
                "only one",
                &Options::method),
         valued("scale", "N", "paper to thing: 5 draws it five times its size; one that fits if not given",
                &Options::scale_words),
         valued("format", "WORD", "svg (if not given) or dxf", &Options::drawing_format, Value::word,
                {"svg", "dxf"}),
         valued("diameter", "D", "of a wheel, in the job's units", &Options::diameter_words),
         valued("bore", "D", "of the index wheel", &Options::bore_words),
         valued("screws", "D", "of the index wheel: three holes on it", &Options::screws_words),
         valued("crank", "WORD",
                "cw (if not given) or ccw: the way the crankshaft runs as you look at the degree wheel",
                &Options::crank, Value::word, {"cw", "ccw"})});
    row.caution = "Lay a ruler on the check lines of a print before you trust it.";
    row.examples = {"draw my-engine.toml --what lobe --lobe \"1 inlet\" -o inlet.svg",
                    "draw my-engine.toml --what wheel --diameter 180 -o wheel.svg",
                    "draw my-engine.toml --what lobe --format dxf -o lobe.dxf"};
    return row;
}

CommandRow sheet_row() {
    CommandRow row{Command::sheet, "sheet", "JOB.toml -o FILE.html",
                   "one page with all that is wanted at the machine"};
    row.about = {
        "One HTML page for phone, laptop and paper that needs no network: the shaft and its lobes as "
        "drawings, the "
        "valve timing, every way to cut them, the settings by hand step by step in large letters, the "
        "program move by "
        "move as its own text says it, with the proof, and what to mind."};
    row.arguments = {job_argument()};
    row.options =
        with_common({valued("program", "FILE", "the program to show in place of the job's own: an edited one",
                            &Options::program, Value::file),
                     post_option(), operation_option()});
    row.options =
        both({valued("readings", "FILE", "what was read of finished lobes, to be shown against the design",
                     &Options::readings, Value::file),
              wheel_option()},
             both(readings_file_options(), std::move(row.options)));
    row.examples = {"sheet my-engine.toml -o my-engine.html",
                    "sheet my-engine.toml --readings readings.csv -o measured.html",
                    "sheet my-engine.toml --program edited.ngc -o edited.html"};
    return row;
}

/// What is asked of the readings.
std::vector<OptionRow> readings_options() {
    std::vector<OptionRow> own{valued("readings", "FILE",
                                      "what was read, to be judged against the design; - is standard input",
                                      &Options::readings, Value::file)};
    for (OptionRow& each : readings_file_options())
        own.push_back(std::move(each));
    own.push_back(valued("tolerance", "LENGTH",
                         "judge the surface by it, along the normal, in the job's units",
                         &Options::tolerance_words));
    own.push_back(valued("fit", "WORD", "write the profile that was measured, ready to paste: arcs or table",
                         &Options::fit, Value::word, {"arcs", "table"}));
    return own;
}

/// The shaft in its engine.
std::vector<OptionRow> installed_options() {
    return {
        toggle("installed",
               "lift at the valve by crank degree, for a dial indicator and a timing wheel; --every in crank "
               "degrees; with --readings what the cam's phase is",
               &Options::installed),
        valued("teeth", "COUNT", "of the cam's gear, to say how many to move it by", &Options::teeth_words),
        valued("holes", "COUNT", "of the gear's vernier, against one more in the flange, likewise",
               &Options::holes_words)};
}

CommandRow inspect_row() {
    CommandRow row{Command::inspect, "inspect", "JOB.toml --lobe NAME",
                   "what an indicator should read on a finished lobe, and what its readings say"};
    row.about = {
        "What an indicator with the job's [probe] (a flat anvil where there is none) should read on a "
        "finished lobe between centres, at every step of the cam angle or at the marks of a hand method's "
        "wheel, and what a micrometer should read across it.",
        "With --readings, what the readings of a finished lobe say: how far its phase and its base circle "
        "are off, its lift errors, when its valve will really open and close. The file has a column reading "
        "and one of cam_angle, shaft_angle, mark (of the wheel of --method) and crank_angle; with a column "
        "lobe it may hold several lobes. Single bad readings are set aside, and told. --fit arcs and --fit "
        "table are for those who copy a worn lobe: they need nothing of the design but its place."};
    row.arguments = {job_argument()};
    std::vector<OptionRow> own{
        valued("lobe", "NAME", "the lobe; not needed where the job has only one", &Options::lobe),
        valued("every", "DEG", "a reading every so many degrees of cam angle; 1 if not given",
               &Options::every_words),
        valued("method", "NAME", "at the marks of that hand method's index wheel instead", &Options::method)};
    for (OptionRow& each : readings_options())
        own.push_back(std::move(each));
    for (OptionRow& each : installed_options())
        own.push_back(std::move(each));
    own.push_back(format_option({"csv", "json", "markdown", "text"}));
    own.push_back(json_option("the same as --format json, for complaints too"));
    row.options = with_common(std::move(own));
    row.examples = {"inspect my-engine.toml --lobe \"1 inlet\" --every 5 --format markdown",
                    "inspect my-engine.toml --readings inlet.csv --unknown zero",
                    "inspect my-engine.toml --readings all.csv --tolerance 0.01 --json",
                    "inspect my-engine.toml --readings worn.csv --fit arcs"};
    return row;
}

CommandRow posts_row() {
    CommandRow row{Command::posts, "posts", "", "the post-processors that there are"};
    row.about = {
        "Lists the post-processors that there are, with what each is for and what its controllers "
        "can't do. A job names one in machine.post. One of your own is a copy with your changes. The job "
        "names it by its path, or by its name where it lies in a folder of your own, "
        "~/.config/lobewright/postprocessors: there it goes before one of the program's of the same name."};
    row.options =
        with_common({valued("show", "NAME", "print one, to copy", &Options::show, Value::post),
                     toggle("names", "their names alone, a line each", &Options::names), json_option()});
    row.examples = {"posts", "posts --show rs274ngc-xza > my-machine.toml"};
    return row;
}

CommandRow help_row() {
    CommandRow row{Command::help, "help", "[COMMAND]",
                   "what a command does, or all of this as a manual page"};
    row.about = {
        "Says what a command does and which options it has; without a command, which commands there "
        "are. With --as all of it comes in another form: the manual page for man, or what bash, zsh "
        "or fish need to complete commands, options and names with the tab key."};
    row.arguments = {{"COMMAND", &Options::topic, Value::command}};
    row.options = with_common({valued("as", "WORD", "man, bash, zsh or fish", &Options::as, Value::word,
                                      {"man", "bash", "zsh", "fish"})});
    row.examples = {"help cut", "help --as man > lobewright.1", "help --as fish > lobewright.fish"};
    return row;
}

}  // namespace

const std::vector<CommandRow>& command_table() {
    static const std::vector<CommandRow> table{start_row(), check_row(), table_row(), compare_row(),
                                               cut_row(),   prove_row(), index_row(), inspect_row(),
                                               draw_row(),  sheet_row(), posts_row(), help_row()};
    return table;
}

const CommandRow* find_command(const std::string& name) {
    const auto& table = command_table();
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const CommandRow& row) { return row.name == name; });
    return found == table.end() ? nullptr : &*found;
}

std::vector<std::string> command_names() {
    std::vector<std::string> names;
    for (const CommandRow& row : command_table())
        names.push_back(row.name);
    return names;
}

std::string option_words(const OptionRow& option) {
    std::string words = option.letter != '\0' ? std::string{'-', option.letter, ',', ' '} : std::string();
    words += "--" + option.name;
    return option.value.empty() ? words : words + ' ' + option.value;
}

}  // namespace lobewright::cli
