#include "cli/result.h"

#include "catch.h"

using namespace lobewright;
using namespace lobewright::cli;

namespace {

Diagnostic message(Fault fault, Severity severity, const std::string& what, Place place = {}) {
    return {fault, severity, "code", what, "remedy", std::move(place)};
}

}  // namespace

TEST_CASE("the worst fault among the errors settles the exit code") {
    CHECK(exit_code({}) == 0);
    CHECK(exit_code({message(Fault::unreadable, Severity::warning, "only a warning")}) == 0);
    CHECK(exit_code({message(Fault::check_failed, Severity::error, "")}) == 1);
    CHECK(exit_code({message(Fault::bad_input, Severity::error, ""),
                     message(Fault::check_failed, Severity::error, "")}) == 2);
    CHECK(exit_code({message(Fault::unreadable, Severity::error, ""),
                     message(Fault::bad_input, Severity::error, "")}) == 3);
}

TEST_CASE("messages come in the order of their places, file by file, those without a place last") {
    Diagnostics messages{
        message(Fault::bad_input, Severity::error, "sixth"),
        message(Fault::bad_input, Severity::error, "third", {"b.toml", 9, 1}),
        message(Fault::bad_input, Severity::error, "fifth", {"a.csv", 2, 1}),
        message(Fault::bad_input, Severity::error, "first", {"b.toml", 2, 5}),
        message(Fault::bad_input, Severity::error, "second", {"b.toml", 2, 7}),
        message(Fault::bad_input, Severity::error, "fourth", {"b.toml", 10, 1}),
        message(Fault::bad_input, Severity::error, "seventh", {"c.toml", 0, 0}),
    };
    sort_by_place(messages);
    std::vector<std::string> order;
    for (const Diagnostic& each : messages)
        order.push_back(each.what);
    CHECK(order ==
          std::vector<std::string>{"first", "second", "third", "fourth", "fifth", "sixth", "seventh"});
}
