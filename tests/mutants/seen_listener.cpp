// Linked into every test program: writes of each test case how long it took, how it went, and through which
// places it ran.
#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include "catch.h"
#include "switches.h"

#if __has_include(<catch2/catch_test_macros.hpp>)
#include <catch2/reporters/catch_reporter_event_listener.hpp>
#include <catch2/reporters/catch_reporter_registrars.hpp>
using Listener = Catch::EventListenerBase;
#else
using Listener = Catch::TestEventListenerBase;
#endif

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>

namespace {

namespace switches = lobewright_mutants;

class SeenListener : public Listener {
  public:
    using Listener::Listener;

    void testCaseStarting(const Catch::TestCaseInfo& info) override {
        Listener::testCaseStarting(info);
        std::fill(switches::seen, switches::seen + switches::most_places, static_cast<unsigned char>(0));
        write(info.name, "begins", 0.0);
        begun_ = std::clock();
    }

    void testCaseEnded(const Catch::TestCaseStats& stats) override {
        const double seconds = static_cast<double>(std::clock() - begun_) / CLOCKS_PER_SEC;
        write(stats.testInfo.name, stats.totals.assertions.allOk() ? "ok" : "fails", seconds);
        Listener::testCaseEnded(stats);
    }

  private:
    static void write(const std::string& name, const char* what, double seconds) {
        const char* path = std::getenv("LOBEWRIGHT_MUTANTS_CASES");
        if (path == nullptr) return;
        std::ofstream out(path, std::ios::app);
        out << name << '\t' << what << '\t' << seconds << '\t';
        for (int i = 0; i < switches::most_places; ++i) {
            if (switches::seen[i] != 0) out << i << ' ';
        }
        out << '\n';
    }

    std::clock_t begun_ = 0;
};

CATCH_REGISTER_LISTENER(SeenListener)

}  // namespace
