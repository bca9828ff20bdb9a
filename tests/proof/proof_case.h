/// A job, solved, planned and written, with the names that tests of the proof use.
#pragma once

#include "job_kit.h"

#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <string>

struct ProofCase {
    lobewright::Job job;
    std::vector<lobewright::SolvedLobe> lobes;
    lobewright::Dialect dialect;
    lobewright::Toolpath path;
    std::string text;

    /// Fails the test where the text can't be read.
    [[nodiscard]] lobewright::ProofReport prove() const { return prove(text); }
    [[nodiscard]] lobewright::ProofReport prove(const std::string& program) const;
};

/// Fails the test, with the complaints, where any stage refuses. The post is the job's.
ProofCase proof_case(lobewright::Job job);
ProofCase proof_case(lobewright::Job job, const lobewright::Dialect& dialect);

/// The first finding of a code, or null.
const lobewright::Diagnostic* finding_of(const lobewright::ProofReport& report, const std::string& code);
/// Not within tolerance, or an error among the findings.
bool fails(const lobewright::ProofReport& report);
/// All findings, one a line, for messages.
std::string findings_text(const lobewright::ProofReport& report);
