#include "cli/process.h"

int main(int argc, char** argv) { return mitefall::cli::run_as_process(argc, argv); }
