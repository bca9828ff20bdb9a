/// Processes that are sent a signal while they run.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

/// How a process ends that does `work`, with the signals as a shell leaves them and not as the tests' library
/// does: its status as waitpid gives it.
int status_of(const std::function<void()>& work);

/// Starts the program in `folder` and sends it `signal` after so many microseconds.
void run_and_signal(const std::filesystem::path& folder, std::vector<std::string> arguments, int signal,
                    unsigned microseconds);

/// How long `work` takes.
unsigned microseconds_for(const std::function<void()>& work);
