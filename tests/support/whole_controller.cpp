#include "whole_controller.h"

#include "catch.h"
#include "program.h"

#include <sstream>

namespace controller {

bool installed() {
    static const bool found =
        run_command({"sh", "-c",
                     "command -v linuxcnc && command -v halsampler && /usr/bin/python3 -c 'import linuxcnc'"})
            .exit_code == 0;
    return found;
}

void say_skipped() {
    WARN("SKIPPED: the open controller is not installed (Debian package linuxcnc-uspace)");
}

Run run(const std::string& program) {
    const TemporaryFolder folder;
    write_file(folder.path() / "program.ngc", program);
    const ::Run made =
        run_command({"sh", (source_folder() / "tests/support/controller/run-controller.sh").string(),
                     "program.ngc", "samples"},
                    folder.path());
    Run result{made.exit_code == 0, made.err, {}};
    if (!result.done) return result;
    std::istringstream lines(file_text(folder.path() / "samples"));
    lines.imbue(std::locale::classic());
    long long number = 0;
    for (Sample sample; lines >> number >> sample.x >> sample.z >> sample.a >> sample.line;)
        result.samples.push_back(sample);
    return result;
}

}  // namespace controller
