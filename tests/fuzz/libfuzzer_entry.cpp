// The program that libFuzzer drives: the target's name stands in LOBEWRIGHT_FUZZ_TARGET. Three mutations in
// four are ours, which know what the texts are made of; the rest are libFuzzer's own.
//
// With LOBEWRIGHT_FUZZ_SEEDS=FOLDER it writes the target's seeds there, and ends.
#include "fuzz_target.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <functional>
#include <string_view>

extern "C" {
std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);
int LLVMFuzzerInitialize(int* argc, char*** argv);
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed);
std::size_t LLVMFuzzerCustomCrossOver(const std::uint8_t* data, std::size_t size, const std::uint8_t* other,
                                      std::size_t other_size, std::uint8_t* out, std::size_t most,
                                      unsigned seed);
}

namespace {

const FuzzTarget* target = nullptr;
std::vector<std::string> seeds;

/// One text in sixteen, settled by itself, or all with LOBEWRIGHT_FUZZ_DEPTH=works.
FuzzDepth depth_of(const std::string& text) {
    static const char* const asked = std::getenv("LOBEWRIGHT_FUZZ_DEPTH");
    const bool works =
        asked != nullptr ? std::string_view(asked) == "works" : std::hash<std::string>{}(text) % 16 == 0;
    return works ? FuzzDepth::works : FuzzDepth::reads;
}

std::string text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

std::size_t put(const std::string& text, std::uint8_t* out) {
    std::memcpy(out, text.data(), text.size());
    return text.size();
}

void write_seeds(const std::string& folder) {
    for (std::size_t i = 0; i < seeds.size(); ++i)
        std::ofstream(folder + "/seed-" + std::to_string(i), std::ios::binary) << seeds[i];
}

}  // namespace

int LLVMFuzzerInitialize(int* /*argc*/, char*** /*argv*/) {
    const char* name = std::getenv("LOBEWRIGHT_FUZZ_TARGET");
    if (name == nullptr) {
        std::fputs("LOBEWRIGHT_FUZZ_TARGET names no target; there are", stderr);
        for (const FuzzTarget& each : fuzz_targets())
            std::fprintf(stderr, " %s", each.name.c_str());
        std::fputs("\n", stderr);
        std::exit(2);
    }
    target = &fuzz_target(name);
    seeds = target->seeds();
    if (const char* folder = std::getenv("LOBEWRIGHT_FUZZ_SEEDS"); folder != nullptr) {
        write_seeds(folder);
        std::exit(0);
    }
    return 0;
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text = text_of(data, size);
    target->run(text, depth_of(text));
    return 0;
}

std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed) {
    Dice dice(seed);
    if (dice.one_in(4)) return LLVMFuzzerMutate(data, size, most);
    const std::string text = text_of(data, size);
    return put(mutated(text, dice.one_in(2) ? text : dice.of(seeds), target->grammar,
                       std::min(most, target->largest), dice),
               data);
}

std::size_t LLVMFuzzerCustomCrossOver(const std::uint8_t* data, std::size_t size, const std::uint8_t* other,
                                      std::size_t other_size, std::uint8_t* out, std::size_t most,
                                      unsigned seed) {
    Dice dice(seed);
    return put(mutated(text_of(data, size), text_of(other, other_size), target->grammar, most, dice), out);
}
