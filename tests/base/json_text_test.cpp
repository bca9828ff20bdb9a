#include "base/text/json_text.h"

#include "catch.h"

#include <limits>
#include <optional>
#include <stdexcept>

using lobewright::JsonText;

TEST_CASE("json text holds members in their order, one a line") {
    JsonText json;
    json.object().member("zebra", 1).member("apple", "a \"b\"\n").member("on", true);
    json.array("list").item(1.5).item(nullptr).end();
    json.array("empty").end();
    json.end();
    CHECK(json.text() ==
          "{\n  \"zebra\": 1,\n  \"apple\": \"a \\\"b\\\"\\n\",\n  \"on\": true,\n  \"list\": [\n    1.5,\n  "
          "  null\n"
          "  ],\n  \"empty\": []\n}\n");
}

TEST_CASE("a one-line container keeps all that is within it on its line") {
    JsonText json;
    json.array();
    json.object({}, JsonText::Layout::one_line).member("a", 1);
    json.array("b").item(2).item(3).end();
    json.end().end();
    CHECK(json.text() == "[\n  {\"a\": 1, \"b\": [2, 3]}\n]\n");
}

TEST_CASE("json numbers have nine decimals at most, no exponent and no minus zero") {
    JsonText json;
    json.array({}, JsonText::Layout::one_line);
    json.item(1e-7).item(1e-12).item(-1e-12).item(1e17).item(0.1).item(2.0 / 3.0).item(-12.5).end();
    CHECK(json.text() == "[0.0000001, 0, 0, 100000000000000000, 0.1, 0.666666667, -12.5]\n");
}

TEST_CASE("what is absent is null in json") {
    JsonText json;
    json.array({}, JsonText::Layout::one_line);
    json.item(std::optional<double>{}).item(std::optional<double>{2.5}).item(std::nullopt).end();
    CHECK(json.text() == "[null, 2.5, null]\n");
}

TEST_CASE("a number that is none is never written") {
    for (const double none :
         {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
          std::numeric_limits<double>::quiet_NaN()}) {
        JsonText json;
        json.array();
        CHECK_THROWS_AS(json.item(none), std::logic_error);
        CHECK_THROWS_AS(json.item(std::optional<double>{none}), std::logic_error);
    }
}

TEST_CASE("text that is not UTF-8 still makes readable json") {
    JsonText json;
    json.array({}, JsonText::Layout::one_line).item("\xff").item("µm").end();
    CHECK(json.text() == "[\"\xef\xbf\xbd\", \"µm\"]\n");
}
