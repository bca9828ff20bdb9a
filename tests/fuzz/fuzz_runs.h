/// What each target does with a text; see FuzzTarget::run.
#pragma once

#include <string>

/// Reading takes microseconds, working with what was read a hundred times as long.
enum class FuzzDepth { reads, works };

/// A job file: reads, solves, judges, prints.
void run_job(const std::string& text, FuzzDepth depth);
/// A dialect: reads, writes the subject's program in it and reads that back.
void run_dialect(const std::string& text, FuzzDepth depth);
/// A program; its first line names a dialect and the units. Reads it with block delete off and on, and proves
/// it where it is short.
void run_program_text(const std::string& text, FuzzDepth depth);
/// A lift table; its first line holds units and smoothing. Reads it for a job and solves the lobe.
void run_table(const std::string& text, FuzzDepth depth);
/// Readings of a finished lobe; its first line holds how they are written and what isn't known. Inspects and
/// prints.
void run_readings(const std::string& text, FuzzDepth depth);
/// A command line, an argument a line: takes it apart, and helps where it asks for help.
void run_arguments(const std::string& text, FuzzDepth depth);
