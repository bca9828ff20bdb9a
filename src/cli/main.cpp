#include "cli/commands.h"

int main(int argc, char** argv) {
    return lobewright::cli::run({argv + (argc > 0 ? 1 : 0), argv + argc});
}
