/// Ways to cut the shaft, with one verdict by one rule. A way is one of the job's cutters on its machine, or
/// one of its hand methods.
///
/// The verdict is that of the work itself: a machine's program is planned, written and proven, a hand
/// method's settings are listed, and what they warn of or fail by is what the verdict stands on. So `check`,
/// `cut` and `index` can't disagree.
#pragma once

#include <lobewright/hand.h>
#include <lobewright/proven_program.h>
#include <lobewright/soundness.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace lobewright {

enum class WayKind { machine, hand };

enum class Verdict {
    yes,  ///< the command that does the work succeeds and warns of nothing
    but,  ///< it succeeds, with what the findings tell
    no,   ///< it fails
};

/// "yes", "but", "no".
const char* verdict_word(Verdict verdict);

/// `no` where one of the findings is an error, `but` where one is a warning, else `yes`.
Verdict verdict_of(const Diagnostics& findings);

/// The findings as bad as `least` or worse as complaints (Fault::check_failed), at the places of the keys
/// that cause them, the like of several lobes told once.
Diagnostics complaints_of(const Job& job, const Diagnostics& findings, Severity least);

struct Way {
    WayKind kind = WayKind::machine;
    std::string name;    ///< the cutter's, the operation's, or the hand method's key under [hand]
    std::string method;  ///< for people: "disc50, parallel to the shaft", "hand.lathe (offset fixture)"
    Verdict verdict = Verdict::no;
    std::string summary;      ///< what it leaves; where that isn't known, why it can't be, and what to do
    std::optional<int> cuts;  ///< passes of the program, or settings by hand
    std::optional<double> minutes;  ///< of the program; of an offset fixture's cuts, about
    Diagnostics findings;           ///< what its planner, writer and proof say, notes too
    Diagnostics complaints;         ///< the errors and the warnings among them, for the one who does the work
    bool wanted = false;            ///< it is what [cut] or an [[operation]] asks for
    std::vector<std::string> lines;  ///< of a machine's way that is wanted: its cutting data, and advice
    /// What the verdict stands on, where ways_to_cut() or ways_by_operations() made it: nothing where it
    /// can't be, and of a program that the job does not ask for, which may be a long one.
    std::shared_ptr<const ProvenProgram> program;
    std::shared_ptr<const HandPlan> plan;
};

/// What has become of a program, or of a method's settings, as a way. The operation is its name, or `cutter`
/// of `job.cut` where there is but one.
Way way_by_machine(const Job& job, const Outcome<ProvenProgram>& program);
Way way_by_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method,
                const Outcome<HandPlan>& plan);

/// Every cutter on the job's machine, then every hand method, each by name. `dialect` is that of the
/// machine's post; without it, or without a [machine] and a [cut], the cutters are left out.
std::vector<Way> ways_to_cut(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const std::optional<Dialect>& dialect);

/// Every operation in its order, on what those before it leave, then every hand method by name. `dialects`:
/// one for each operation. Required: the job has [[operation]] and meets the needs of Purpose::cut.
std::vector<Way> ways_by_operations(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const std::vector<Dialect>& dialects);

/// Of the hand methods that have one, in the ways' order.
std::vector<const HandPlan*> plans_by_hand(const std::vector<Way>& ways);

/// Whether the job fails by this way: it can't be, and either [cut] or an [[operation]] asks for it or no
/// other way can be.
bool fails_by(const Way& way, const std::vector<Way>& ways);

/// The lobes' report, then a line for each way with the warnings that it is possible with. At most 100
/// columns wide.
std::string check_text(const Job& job, const JobReport& report, const std::vector<Way>& ways);
/// By examples/job-file.md. The findings are the report's, then the ways' errors and warnings, each with its
/// `way`; an error among them is one that the job fails by.
std::string check_json(const Job& job, const JobReport& report, const std::vector<Way>& ways);

}  // namespace lobewright
