// random_jobs FOLDER COUNT: writes fair job files drawn at random into the folder, 1.toml and so on by their
// seeds.
#include "random_job_text.h"

#include <fstream>
#include <string>

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const std::string folder = argv[1];
    const auto count = static_cast<unsigned>(std::stoul(argv[2]));
    for (unsigned seed = 1; seed <= count; ++seed) {
        std::ofstream out(folder + "/" + std::to_string(seed) + ".toml", std::ios::binary);
        out << RandomJobText(seed).fair();
        if (!out.flush()) return 1;
    }
    return 0;
}
