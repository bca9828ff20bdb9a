/// What the page shows, and that it shows nothing else.
#include "basalt.h"
#include "job_kit.h"
#include "near.h"

#include <lobewright/proven_program.h>
#include <lobewright/sheet.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using namespace lobewright;

namespace {

struct Solved {
    Job job;
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    SheetParts parts{judge(job, lobes), {}, std::nullopt};
};

/// The Basalt four with its own program and its dividing head.
const Solved& four() {
    static const Solved whole = [] {
        Solved made{example_job("basalt-four")};
        const Dialect dialect = shipped_dialect(made.job.machine->post);
        made.parts.ways = ways_to_cut(made.job, made.lobes, dialect);
        const ProvenProgram& program = *made.parts.ways[0].program;
        made.parts.program = SheetProgram{
            "four.ngc", program.text, taken(read_program(program.text, "four.ngc", dialect, made.job.units)),
            program.proof};
        return made;
    }();
    return whole;
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the page of the Basalt four is one file below a megabyte that asks no network for anything") {
    const std::string page = sheet_page(four().job, four().lobes, four().parts);
    CHECK(page.size() < 1000000);
    for (const char* outside :
         {" src=", " href=", "url(", "@import", "fetch(", "XMLHttpRequest", "import("}) {
        CAPTURE(outside);
        CHECK_FALSE(holds(page, outside));
    }
    CHECK(holds(page, "default-src 'none'"));
}

TEST_CASE("sections stand where the job has what they show, cautions first") {
    const std::string page = sheet_page(four().job, four().lobes, four().parts);
    std::size_t before = page.find("class=\"caution\"");
    REQUIRE(before != std::string::npos);
    for (const char* id : {"shaft", "timing", "ways", "lobes", "by-hand", "program"}) {
        CAPTURE(id);
        const std::size_t at = page.find("<section id=\"" + std::string(id) + "\">");
        REQUIRE(at != std::string::npos);
        CHECK(at > before);
        before = at;
    }
    const Solved bare{basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat())};
    const std::string less = sheet_page(bare.job, bare.lobes, bare.parts);
    CHECK(holds(less, "<section id=\"shaft\">"));
    for (const char* id : {"timing", "ways", "by-hand", "program"}) {
        CAPTURE(id);
        CHECK_FALSE(holds(less, "<section id=\"" + std::string(id) + "\">"));
    }
}

TEST_CASE("lobes of one profile and one follower are shown once, by all their names") {
    const std::string page = sheet_page(four().job, four().lobes, four().parts);
    CHECK(holds(page, "<h3>1 inlet, 2 inlet, 3 inlet, 4 inlet</h3>"));
    std::size_t readouts = 0;
    for (std::size_t at = page.find("class=\"readout\" data-index"); at != std::string::npos;
         at = page.find("class=\"readout\" data-index", at + 1))
        ++readouts;
    CHECK(readouts == 2);
}

TEST_CASE("the model holds the program's moves as its text says them") {
    const auto model = nlohmann::json::parse(sheet_model(four().job, four().lobes, four().parts));
    CHECK(model["version"] == 2);
    const auto& moves = four().parts.program->read.moves;
    const auto& flat = model["program"]["moves"];
    REQUIRE(flat.size() == 6 * moves.size());
    std::array<long long, 5> at{};  // line, radial, axial, rotary, milliseconds
    double seconds = 0.0;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        for (std::size_t k = 0; k < at.size(); ++k)
            at[k] += flat[6 * i + k + 1].get<long long>();
        const int kind = flat[6 * i].get<int>();
        CHECK(kind % 8 == static_cast<int>(moves[i].kind));
        CHECK(at[0] == moves[i].line);
        const double places[] = {moves[i].radial, moves[i].axial, moves[i].rotary};
        for (int k = 0; k < 3; ++k) {
            CHECK((kind & (8 << k)) / (8 << k) == (std::isnan(places[k]) ? 0 : 1));
            if (!std::isnan(places[k]))
                CHECK_NEAR(static_cast<double>(at[static_cast<std::size_t>(k + 1)]) / 1e5, places[k], 1e-5);
        }
        seconds += moves[i].seconds;
        CHECK_NEAR(static_cast<double>(at[4]) / 1e3, seconds, 1e-3);
    }
    CHECK(model["program"]["text"] == four().parts.program->text);
}

TEST_CASE("the model's motion is the lobe's, and its outline the contour in the shaft's frame") {
    const auto model = nlohmann::json::parse(sheet_model(four().job, four().lobes, four().parts));
    const SolvedLobe& lobe = four().lobes[0];
    const auto& motion = model["lobes"][0]["motion"];
    REQUIRE(motion.size() == 10 * 181);
    for (std::size_t i = 0; i < 181; ++i) {
        const FollowerContact wanted = contact_at(lobe, CamAngle::from_degrees(motion[10 * i].get<double>()));
        CHECK_NEAR(motion[10 * i + 1].get<double>(), wanted.lift.lift, 1e-5);
        CHECK_NEAR(motion[10 * i + 6].get<double>(), wanted.contact.point.x, 1e-5);
        CHECK_NEAR(motion[10 * i + 7].get<double>(), wanted.contact.point.y, 1e-5);
    }
    const auto& outline = model["lobes"][0]["outline"];
    REQUIRE(outline.size() > 200);
    for (std::size_t i = 0; i < outline.size(); i += 2) {
        const Vec2 at{outline[i].get<double>(), outline[i + 1].get<double>()};
        const auto towards = ShaftAngle::from_radians(direction(at)) - lobe.at;
        CHECK_NEAR(length(at), lobe.contour.polar_radius(towards), 3e-5);
    }
}

TEST_CASE("the settings of a hand method are the plan's own, step by step") {
    const auto model = nlohmann::json::parse(sheet_model(four().job, four().lobes, four().parts));
    const HandPlan& plan = *plans_by_hand(four().parts.ways)[0];
    const auto& settings = model["methods"][0]["settings"];
    REQUIRE(settings.size() == plan.settings.size());
    for (std::size_t i = 0; i < plan.settings.size(); ++i) {
        CHECK(settings[i]["lobe"] == four().lobes[plan.settings[i].lobe].name);
        CHECK(settings[i]["turns"] == *plan.settings[i].turns);
        CHECK(settings[i]["hole"] == *plan.settings[i].hole);
        CHECK_NEAR(settings[i]["finish"].get<double>(), *plan.settings[i].finish, 1e-5);
    }
}

TEST_CASE("the model holds what the program leaves around each lobe as the proof found it") {
    const auto model = nlohmann::json::parse(sheet_model(four().job, four().lobes, four().parts));
    const auto& verdicts = four().parts.program->proof.lobes;
    REQUIRE(model["program"]["lobes"].size() == verdicts.size());
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        const auto& around = model["program"]["lobes"][i]["around"];
        REQUIRE(around.size() == 4 * verdicts[i].around.size());
        for (std::size_t k = 0; k < verdicts[i].around.size(); ++k) {
            CHECK(around[4 * k] == verdicts[i].around[k].index);
            CHECK_NEAR(around[4 * k + 1].get<double>() / 1e6, verdicts[i].around[k].deepest, 1e-6);
            CHECK_NEAR(around[4 * k + 2].get<double>() / 1e6, verdicts[i].around[k].proudest, 1e-6);
            CHECK(around[4 * k + 3] == verdicts[i].around[k].line);
        }
    }
}

TEST_CASE("a program of more moves than the page shows is thinned out, and the page says so") {
    Solved longer = four();
    SheetProgram& program = *longer.parts.program;
    const auto& moves = program.read.moves;
    const auto feed = std::find_if(moves.begin(), moves.end(), [](const ReadMove& move) {
        return move.kind == ReadMoveKind::feed && move.seconds > 0.0;
    });
    REQUIRE(feed != moves.end());
    const std::vector<ReadMove> many(2 * most_moves_shown + 1, *feed);
    program.read.moves.insert(program.read.moves.begin() + (feed - moves.begin()), many.begin(), many.end());
    const auto model = nlohmann::json::parse(sheet_model(longer.job, longer.lobes, longer.parts));
    const std::size_t shown = model["program"]["moves"].size() / 6;
    CHECK(shown > most_moves_shown / 2);
    CHECK(shown <= most_moves_shown + 1000);  // besides every so many-th, the ends of runs
    CHECK(model["program"]["all_moves"] == program.read.moves.size());
    double wanted = 0.0, found = 0.0;
    for (const ReadMove& move : program.read.moves)
        wanted += move.seconds;
    for (std::size_t i = 0; i < shown; ++i)
        found += model["program"]["moves"][6 * i + 5].get<double>() / 1e3;
    CHECK_NEAR(found, wanted, 1e-3);
    CHECK(holds(sheet_page(longer.job, longer.lobes, longer.parts), "the plot shows one in 3"));
}

TEST_CASE("names are text on the page, whatever they hold") {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat());
    job.title = "</script><script>alert(1)</script>\"'&\u202E" + std::string(300, 'x');
    job.lobes[0].name = "<img src=x onerror=alert(1)>";
    const Solved hostile{job};
    const std::string page = sheet_page(hostile.job, hostile.lobes, hostile.parts);
    CHECK_FALSE(holds(page, "<script>alert"));
    CHECK_FALSE(holds(page, "<img"));
    const std::size_t from = page.find("id=\"model\">") + 11;
    const auto model = nlohmann::json::parse(page.substr(from, page.find("</script>", from) - from));
    CHECK(model["title"] == job.title);
    CHECK(model["lobes"][0]["name"] == job.lobes[0].name);
}
