// A bounded run of every fuzz target: its seeds, and the same mutations that fuzzing makes, by a fixed seed.
// And every text that fuzzing ever found something with (tests/fuzz/found/TARGET).
#include "catch.h"
#include "fuzz_target.h"
#include "program.h"
#include "trials.h"

#include <exception>

namespace fs = std::filesystem;

namespace {

/// The test fails, with the text, where the target throws.
void try_text(const FuzzTarget& target, const std::string& text) {
    try {
        target.run(text, FuzzDepth::works);
    } catch (const std::exception& broken) {
        FAIL_CHECK(target.name << ": " << broken.what() << "\n---- of the text\n" << text);
    }
}

int texts_of(const std::string& target) {
    if (target == "dialect") return trials(150);
    return trials(target == "arguments" ? 4000 : 700);
}

}  // namespace

TEST_CASE("no target minds what it is fed", "[smoke]") {
    for (const FuzzTarget& target : fuzz_targets()) {
        const std::vector<std::string> seeds = target.seeds();
        for (const std::string& seed : seeds)
            try_text(target, seed);
        Dice dice(20261127);
        INFO(target.name << ", seed 20261127");
        std::string text = dice.of(seeds);
        for (int i = 0; i < texts_of(target.name); ++i) {
            // Mutations go on from each other for a while: slips seldom come alone.
            if (dice.one_in(3)) text = dice.of(seeds);
            text = mutated(text, dice.of(seeds), target.grammar, 20000, dice);
            try_text(target, text);
        }
    }
    SUCCEED("no target threw");
}

TEST_CASE("what fuzzing once found is mended", "[found]") {
    std::size_t found = 0;
    for (const FuzzTarget& target : fuzz_targets()) {
        const fs::path folder = source_folder() / "tests/fuzz/found" / target.name;
        if (!fs::exists(folder)) continue;
        for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
            INFO(entry.path().string());
            try_text(target, file_text(entry.path()));
            ++found;
        }
    }
    CHECK(found > 0);
}
