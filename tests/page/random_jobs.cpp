// random_jobs FOLDER COUNT: writes job files drawn at random into the folder, by their seeds fair-1.toml and
// so on, and as many hostile ones.
#include "random_job_text.h"

#include <fstream>
#include <stdexcept>
#include <string>

namespace {

void write(const std::string& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("can't write " + path);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const std::string folder = argv[1];
    const auto count = static_cast<unsigned>(std::stoul(argv[2]));
    for (unsigned seed = 1; seed <= count; ++seed) {
        const std::string name = std::to_string(seed) + ".toml";
        write(folder + "/fair-" + name, RandomJobText(seed).fair());
        write(folder + "/hostile-" + name, RandomJobText(seed).hostile());
    }
    return 0;
}
