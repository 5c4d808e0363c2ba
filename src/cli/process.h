#pragma once

namespace mitefall::cli {

/// The program as a process: arguments, terminal, environment, clock and standard streams. Returns the exit
/// code (docs/exit-codes.md).
int run_as_process(int argc, char** argv);

}  // namespace mitefall::cli
