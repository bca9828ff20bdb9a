#include "cli/commands.h"
#include "cli/system/process.h"

int main(int argc, char** argv) {
    lobewright::cli::prepare_process();
    return lobewright::cli::run(lobewright::cli::arguments_of(argc, argv));
}
