/// A whole open controller (Debian package linuxcnc-uspace: interpreter, trajectory planner, motion) that
/// runs a program in real time, without a screen or a machine, as a witness of what a program's words become.
///
/// A test that needs it carries the tag [controller] and begins with
///     if (!controller::installed()) return controller::say_skipped();
/// Such tests run as a ctest entry of their own, "NAME_controller", which then reads "Skipped".
#pragma once

#include <string>
#include <vector>

namespace controller {

bool installed();
/// Prints "SKIPPED: ..." as a Catch2 warning.
void say_skipped();

/// Where the axes were told to be in one millisecond.
struct Sample {
    double x = 0.0;  ///< mm
    double z = 0.0;  ///< mm
    double a = 0.0;  ///< degrees
    int line = 0;    ///< of the program, in work
};

struct Run {
    bool done = false;
    std::string complaints;  ///< where it was not
    std::vector<Sample> samples;
};

/// Axes X, Z and A; 2000 mm/min and 300 mm/s², 7200 degrees/min and 3600 degrees/s². Required: installed().
Run run(const std::string& program);

}  // namespace controller
