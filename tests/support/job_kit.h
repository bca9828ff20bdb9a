/// What tests make jobs of beside basalt.h's parts: the shipped dialects and examples, and texts with
/// changes.
#pragma once

#include "catch.h"

#include <lobewright/dialect.h>
#include <lobewright/job.h>

#include <string>
#include <utility>
#include <vector>

/// The value of an outcome; the test fails, with the complaints, where there is none.
template <class T>
T taken(lobewright::Outcome<T> outcome) {
    for (const lobewright::Diagnostic& diagnostic : outcome.diagnostics())
        UNSCOPED_INFO(lobewright::to_text(diagnostic));
    REQUIRE(outcome.ok());
    return std::move(outcome).value();
}

/// A dialect of postprocessors/, by name.
lobewright::Dialect shipped_dialect(const std::string& name);
/// The names of all of them.
const std::vector<std::string>& shipped_names();

/// The text of a job of examples/, by its file's name without ending, and the job itself.
std::string example_text(const std::string& name);
lobewright::Job example_job(const std::string& name);

/// `text` with the one place where `part` stands replaced; throws if it doesn't stand there exactly once.
std::string with(std::string text, const std::string& part, const std::string& by);

/// The number of the line, from 1, on which `part` first stands.
int line_of(const std::string& text, const std::string& part);
