#include "cli/help.h"

#include <array>

namespace lobewright::cli {
namespace {

struct Page {
    const char* name;
    const char* text;
};

constexpr const char* overview =
    R"(lobewright takes a camshaft job from valve timing to metal: sound lobes, a
program or settings for your own machine, and the proof that it cuts them.

usage: lobewright COMMAND JOB.toml [options]

commands
  start   write a commented job to begin from
  check   read, solve and judge the job: what is sound, what can be cut how
  table   the polar lift table of a lobe
  cut     the program for a machine, proven before it is written
  prove   cut the shaft with a program's text and compare
  index   the settings for cutting by hand
  posts   the post-processors that there are

options of every command
  -o FILE      write there, whole or not at all, not to standard output
  --quiet      only complaints, no remarks
  -h, --help   what a command does: lobewright COMMAND --help
  --version

exit codes
  0   done, and all is within limits
  1   the files were read, but a check failed
  2   the command line or an input file says something wrong
  3   a file can't be read or written
  70  a bug of ours

examples
  lobewright start my-engine.toml --for dividing-head
  lobewright check my-engine.toml
  lobewright cut my-engine.toml -o my-engine.ngc
)";

constexpr Page check_page{"check",
                          R"(lobewright check JOB.toml

Reads the job, solves every lobe and judges it: valve events, geometry, motion,
contact, and for each cutter and each hand method one line that says whether it
can cut the shaft (yes, but with what it warns of, no), and what it would leave.

options
  --json       for a program to read
  -o FILE      write there, whole or not at all, not to standard output
  --quiet      only complaints, no remarks

examples
  lobewright check my-engine.toml
  lobewright check my-engine.toml --json -o report.json
)"};

constexpr Page table_page{"table",
                          R"(lobewright table JOB.toml --lobe NAME

The polar lift table of one lobe, from -180 to 180 degrees of cam angle: lift
and its derivatives, the lobe's own radius, the point of contact, the radius of
curvature there and the pressure angle. Lengths are in the job's units.

options
  --lobe NAME     the lobe; not needed where the job has only one
  --every DEG     a row every so many degrees of cam angle; 1 if not given
  --format WORD   csv (if not given), json or markdown
  --json          the same as --format json
  -o FILE         write there, whole or not at all, not to standard output
  --quiet         only complaints, no remarks

examples
  lobewright table my-engine.toml --lobe "1 inlet"
  lobewright table my-engine.toml --lobe "1 inlet" --every 0.5 -o inlet.csv
)"};

constexpr Page cut_page{"cut",
                        R"(lobewright cut JOB.toml

The program that cuts the shaft on the job's [machine] with the cutter of its
[cut]. The program's own text is proven first: one that would not cut the lobes
within tolerance is not written.

options
  --post WORD  another post-processor than the job's: a name that `lobewright
               posts` lists, or a path to a TOML file
  --plan       the passes, depths, blocks and times alone, no program
  -o FILE      write there, whole or not at all, not to standard output
  --quiet      only complaints, no remarks

Before the first part: run the program above it or in wax or foam, stand clear,
and follow the machine's manual.

examples
  lobewright cut my-engine.toml --plan
  lobewright cut my-engine.toml -o my-engine.ngc
  lobewright cut my-engine.toml --post my-machine.toml -o my-engine.ngc
)"};

constexpr Page prove_page{"prove",
                          R"(lobewright prove JOB.toml PROGRAM

Reads a program as the controller would, cuts the shaft with it, and compares
what is left with the design, lobe by lobe. The program may be written by hand
or by anything else, if it names its axes as the post-processor does.

options
  --post WORD  another post-processor than the job's: a name that `lobewright
               posts` lists, or a path to a TOML file
  --json       for a program to read
  -o FILE      write there, whole or not at all, not to standard output
  --quiet      only complaints, no remarks

examples
  lobewright prove my-engine.toml my-engine.ngc
  lobewright prove my-engine.toml edited-by-hand.ngc --json
)"};

constexpr Page index_page{"index",
                          R"(lobewright index JOB.toml --method NAME

The settings for cutting the shaft by hand, in the order of the work: marks of
an index wheel, turns and holes of a dividing head, or degrees of a rotary
table.

options
  --method NAME   one of the job's [hand] methods; not needed where it has only
                  one
  --format WORD   markdown (if not given), csv or json
  --json          the same as --format json
  -o FILE         write there, whole or not at all, not to standard output
  --quiet         only complaints, no remarks

examples
  lobewright index my-engine.toml --method lathe
  lobewright index my-engine.toml --method head --format csv -o head.csv
)"};

constexpr Page start_page{"start",
                          R"(lobewright start FILE --for PURPOSE

Writes a commented job to begin from. It passes `lobewright check` as it is; put
your own engine and shop into it. A file that is there already stays untouched.

purposes
  offset-fixture   lathe, the shaft swinging off centre in a fixture
  dividing-head    mill with a dividing head
  rotary-mill      mill with a rotary axis
  lathe-c          lathe with a C axis and a live cutter

options
  -o FILE      the same as FILE
  --quiet      only complaints, no remarks

example
  lobewright start my-engine.toml --for rotary-mill
)"};

constexpr Page posts_page{"posts",
                          R"(lobewright posts

Lists the post-processors that there are, with what each is for and what its
controllers can't do. A job names one in machine.post; one of your own is a copy
with your changes, named by its path.

options
  --show NAME  print one, to copy
  --json       for a program to read
  -o FILE      write there, whole or not at all, not to standard output
  --quiet      only complaints, no remarks

examples
  lobewright posts
  lobewright posts --show rs274ngc-xza > my-machine.toml
)"};

constexpr std::array pages{start_page, check_page, table_page, cut_page, prove_page, index_page, posts_page};

}  // namespace

const std::vector<std::string>& command_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> list;
        for (const Page& page : pages)
            list.emplace_back(page.name);
        return list;
    }();
    return names;
}

std::string help_text(std::string_view topic) {
    for (const Page& page : pages) {
        if (topic == page.name) return page.text;
    }
    return overview;
}

}  // namespace lobewright::cli
