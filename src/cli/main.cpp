#include "cli/commands.h"
#include "cli/system/process.h"

int main(int argc, char** argv) {
    lobewright::cli::prepare_process();
    return lobewright::cli::run({argv + (argc > 0 ? 1 : 0), argv + argc});
}
