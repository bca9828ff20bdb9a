// The library inside a program whose locale writes numbers with a comma and groups them.
#include "catch.h"
#include "cli/commands.h"
#include "program.h"
#include "small_job.h"

#include <clocale>
#include <locale>

namespace {

class CommaNumbers : public std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\1"; }
};

/// The global locale of C++, and of C where the system has a suitable one, until the object goes.
class HostileLocale {
  public:
    HostileLocale() : old_(std::locale::global(std::locale(std::locale::classic(), new CommaNumbers))) {
        for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "pl_PL.UTF-8"}) {
            if (std::setlocale(LC_ALL, name) != nullptr) break;
        }
    }
    ~HostileLocale() {
        std::locale::global(old_);
        std::setlocale(LC_ALL, "C");
    }
    HostileLocale(const HostileLocale&) = delete;
    HostileLocale& operator=(const HostileLocale&) = delete;

  private:
    std::locale old_;
};

std::string text_of(std::vector<std::string> arguments, const std::filesystem::path& folder) {
    const std::string out = (folder / "out").string();
    std::filesystem::remove(out);
    arguments.insert(arguments.end(), {"--quiet", "-o", out});
    REQUIRE(lobewright::cli::run(arguments) == 0);
    return file_text(out);
}

}  // namespace

TEST_CASE("a hostile locale in the same process changes no byte of any output") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    write_file(job, small_job());
    const std::vector<std::vector<std::string>> commands{
        {"check", job},
        {"check", job, "--json"},
        {"table", job, "--lobe", "1 inlet"},
        {"table", job, "--lobe", "1 inlet", "--json"},
        {"cut", job},
        {"cut", job, "--plan"},
        {"index", job},
        {"index", job, "--format", "csv"},
        {"inspect", job, "--lobe", "1 inlet", "--every", "5"},
        {"inspect", job, "--lobe", "1 inlet", "--every", "5", "--format", "text"},
        {"posts", "--json"},
    };
    for (const std::vector<std::string>& command : commands) {
        INFO(command.front() << " " << command.back());
        const std::string plain = text_of(command, folder.path());
        const HostileLocale hostile;
        CHECK(text_of(command, folder.path()) == plain);
    }
    const std::string program = (folder.path() / "job.ngc").string();
    write_file(program, text_of({"cut", job}, folder.path()));
    const std::string proof = text_of({"prove", job, program}, folder.path());
    const HostileLocale hostile;
    CHECK(text_of({"prove", job, program}, folder.path()) == proof);
}
