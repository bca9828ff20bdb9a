#include "cli/command_table.h"
#include "cli/option_rows.h"

namespace lobewright::cli {
namespace {

ProgramTexts texts_of_program() {
    ProgramTexts texts;
    texts.line = "camshaft lobes, from valve timing to a proven program";
    texts.about =
        "lobewright takes a camshaft job from valve timing to metal: sound lobes, a program or "
        "settings for your own machine, and the proof that it cuts them.";
    texts.common = {output_option(), quiet_option()};
    texts.options = {help_option("what a command does: lobewright COMMAND --help"),
                     toggle("version", "the program's version", &Options::version, 'V')};
    texts.exit_codes = {{"0", "done, and all is within limits"},
                        {"1", "the files were read, but a check failed"},
                        {"2", "the command line or an input file says something wrong"},
                        {"3", "a file can't be read or written"},
                        {"70", "a bug of ours"}};
    texts.environment = {
        {"LOBEWRIGHT_POSTPROCESSORS", "the folder of your own post-processors, in place of the one below"},
        {"XDG_CONFIG_HOME", "where the settings of your programs lie; ~/.config where it is not set"}};
    texts.files = {{"~/.config/lobewright/postprocessors/NAME.toml",
                    "a post-processor of your own, which a job or --post calls NAME"}};
    texts.caution =
        "Cutting a camshaft can hurt you and it can break the machine. The machine's manual, the "
        "local rules and trained practice come before anything that this program prints. Run "
        "every program above the part first, with a hand on the stop. The program proves the "
        "geometry of what it writes; it can't know your clamps, your backlash or a wrongly set "
        "zero.";
    texts.examples = {"start my-engine.toml --for dividing-head", "check my-engine.toml",
                      "cut my-engine.toml -o my-engine.ngc"};
    return texts;
}

}  // namespace

const ProgramTexts& program_texts() {
    static const ProgramTexts texts = texts_of_program();
    return texts;
}

}  // namespace lobewright::cli
