// A bounded run of every fuzz target: its seeds, and the same mutations that fuzzing makes, by a fixed seed.
// And every text that fuzzing ever found something with (tests/fuzz/found/TARGET).
//
// As a campaign, without a fuzzer's compiler: LOBEWRIGHT_FUZZ_TEXTS=2000000, of LOBEWRIGHT_FUZZ_TARGET=job
// alone, begun by LOBEWRIGHT_FIRST_SEED=1; it works with one text in sixteen that it accepts.
#include "catch.h"
#include "fuzz_target.h"
#include "program.h"
#include "trials.h"

#include <cstdlib>
#include <exception>

namespace fs = std::filesystem;

namespace {

/// The test fails, with the text, where the target throws.
void try_text(const FuzzTarget& target, const std::string& text, FuzzDepth depth) {
    try {
        target.run(text, depth);
    } catch (const std::exception& broken) {
        FAIL_CHECK(target.name << ": " << broken.what() << "\n---- of the text\n" << text);
    }
}

int texts_of(const std::string& target) {
    const int ordinary = target == "dialect" ? 150 : target == "arguments" ? 4000 : 700;
    return campaign("LOBEWRIGHT_FUZZ_TEXTS", trials(ordinary));
}

bool is_campaign() {
    return std::getenv("LOBEWRIGHT_FUZZ_TEXTS") != nullptr;
}

bool is_asked_for(const FuzzTarget& target) {
    const char* name = std::getenv("LOBEWRIGHT_FUZZ_TARGET");
    return name == nullptr || target.name == name;
}

}  // namespace

TEST_CASE("no target minds what it is fed", "[smoke]") {
    const auto first_seed = static_cast<unsigned>(campaign("LOBEWRIGHT_FIRST_SEED", 20261127));
    for (const FuzzTarget& target : fuzz_targets()) {
        if (!is_asked_for(target)) continue;
        const std::vector<std::string> seeds = target.seeds();
        for (const std::string& seed : seeds)
            try_text(target, seed, FuzzDepth::works);
        Dice dice(first_seed);
        INFO(target.name << ", seed " << first_seed);
        std::string text = dice.of(seeds);
        const int texts = texts_of(target.name);
        for (int i = 0; i < texts; ++i) {
            // Mutations go on from each other for a while: slips seldom come alone.
            if (dice.one_in(3)) text = dice.of(seeds);
            text = mutated(text, dice.of(seeds), target.grammar, 20000, dice);
            try_text(target, text, is_campaign() && i % 16 != 0 ? FuzzDepth::reads : FuzzDepth::works);
        }
        if (is_campaign()) WARN(target.name << ": " << texts << " texts, seed " << first_seed);
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
            try_text(target, file_text(entry.path()), FuzzDepth::works);
            ++found;
        }
    }
    CHECK(found > 0);
}
