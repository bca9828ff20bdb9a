/// What fuzzing feeds: each target takes one text, as hostile as one likes, and must neither crash nor stay.
///
/// libFuzzer (libfuzzer_entry.cpp, by tests/fuzz.sh) and the smoke test drive the same functions with the
/// same seeds and the same mutations.
#pragma once

#include "fuzz_runs.h"
#include "text_mutation.h"

#include <cstddef>
#include <string>
#include <vector>

struct FuzzTarget {
    std::string name;
    /// Reads the text, and works with what it accepts. Throws where the program's own promises don't hold:
    /// each refusal with its place and its remedy, no figure that is none.
    void (*run)(const std::string& text, FuzzDepth depth);
    std::vector<std::string> (*seeds)();  ///< sound texts to begin from
    TextGrammar grammar;
    std::size_t largest = 0;  ///< bytes of a text
};

/// All of them: job, dialect, program, table, readings, arguments.
const std::vector<FuzzTarget>& fuzz_targets();
/// Throws where there is none of that name.
const FuzzTarget& fuzz_target(const std::string& name);
