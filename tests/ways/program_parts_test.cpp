// A cut in several programs, where the controller's memory doesn't hold it in one.

#include "catch.h"
#include "job_kit.h"

#include <lobewright/program_parts.h>

#include <algorithm>

using namespace lobewright;

namespace {

OperationWork whole_four() {
    Job job = example_job("basalt-four");
    job.cut->spring_passes = 0, job.cut->rough_depth = 1.2;
    return {job, taken(solve_lobes(job)), {}, shipped_dialect(job.machine->post)};
}

std::size_t length(const OperationWork& work) {
    return taken(proven_files(work)).front().program.text.size();
}

}  // namespace

TEST_CASE("a program that is too long comes in parts of whole lobes, each of them whole and proven") {
    OperationWork work = whole_four();
    const std::size_t all = length(work);
    work.dialect.longest_program = static_cast<int>(all / 2);
    work.dialect.program_number = "O0098";
    const std::vector<ProgramFile> files = taken(proven_files(work));
    REQUIRE(files.size() >= 3);  // every part has its header
    std::vector<std::string> cut;
    for (std::size_t i = 0; i < files.size(); ++i) {
        const auto& [job, lobes, program] = files[i];
        INFO("part " << i + 1);
        CHECK(program.text.size() <= all / 2);
        CHECK(program.proof.within_tolerance);
        CHECK(program.proof.ends_clear);
        CHECK(program.proof.rapids_in_stock == 0);
        CHECK_THAT(program.text, ContainsSubstring("Program " + std::to_string(i + 1) + " of " +
                                                   std::to_string(files.size())) &&
                                     ContainsSubstring("M30"));
        CHECK(program.text.starts_with("O00" + std::to_string(98 + i)) ==
              (98 + i < 100));  // O0098, O0099, O0100, ...
        for (const SolvedLobe& lobe : lobes)
            cut.push_back(lobe.name);
    }
    std::vector<std::string> wanted;
    for (const SolvedLobe& lobe : work.lobes)
        wanted.push_back(lobe.name);
    CHECK(cut == wanted);  // the example's lobes stand in the shaft's order
    CHECK(files[2].program.text.starts_with("O0100"));
}

TEST_CASE("lobes that programs before have cut stand in the way as they are then, the others as bar") {
    OperationWork work = whole_four();
    work.dialect.longest_program = static_cast<int>(length(work) / 2);
    const std::vector<ProgramFile> files = taken(proven_files(work));
    REQUIRE(files.size() >= 2);
    const auto at = [&](const SolvedLobe& lobe) {
        const auto& journals = files[1].job.shaft.journals;
        const auto found = std::find_if(journals.begin(), journals.end(),
                                        [&](const Journal& journal) { return journal.z == lobe.z; });
        REQUIRE(found != journals.end());
        return found->diameter;
    };
    const SolvedLobe &first = work.lobes.front(), &last = work.lobes.back();
    CHECK_NEAR(at(first), 2.0 * (first.contour.largest_radius() + 0.002), 1e-9);
    CHECK(at(last) == *work.job.shaft.blank());
}

TEST_CASE("a program that fits just is one, and a character less makes it several") {
    OperationWork work = whole_four();
    const auto all = static_cast<int>(length(work));
    work.dialect.longest_program = all;
    CHECK(taken(proven_files(work)).size() == 1);
    work.dialect.longest_program = all - 1;
    CHECK(taken(proven_files(work)).size() == 2);
}

TEST_CASE(
    "a lobe whose program alone is too long is refused with the length that it needs, which then does") {
    OperationWork work = whole_four();
    work.dialect.longest_program = 3000;
    const auto files = proven_files(work);
    REQUIRE_FALSE(files.ok());
    const Diagnostic& refusal = files.diagnostics().front();
    CHECK(refusal.code == "program-too-long");
    CHECK(refusal.fault == Fault::check_failed);
    CHECK_THAT(refusal.what,
               ContainsSubstring("lobe 1 exhaust alone has") && ContainsSubstring("takes 3000"));
    const std::string key = "lines.longest_program = ";
    const auto number = refusal.remedy.find(key) + key.size();
    work.dialect.longest_program = std::stoi(refusal.remedy.substr(number));
    const auto then = proven_files(work);
    if (then.ok()) return;  // every other lobe is shorter
    CHECK(then.diagnostics().front().what.find("lobe 1 exhaust alone") == std::string::npos);
}

TEST_CASE("the plan knows of each program which lobes it will hold") {
    OperationWork work = whole_four();
    work.dialect.longest_program = static_cast<int>(length(work) / 2);
    std::vector<std::vector<std::string>> cut;
    for (const ProgramFile& file : taken(proven_files(work))) {
        cut.emplace_back();
        for (const SolvedLobe& lobe : file.lobes)
            cut.back().push_back(lobe.name);
    }
    CHECK(taken(lobes_of_files(work)) == cut);
}
