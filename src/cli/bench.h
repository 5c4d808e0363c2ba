#pragma once

#include <CLI/CLI.hpp>

#include "formats/bench_words.h"

namespace mitefall::cli {

/// The stock and the measuring tools, as options.
struct BenchOptions {
    formats::BenchWords words;

    void add_to(CLI::App& command);
    [[nodiscard]] base::Result<worklist::Bench> read(const evidence::Tables& tables) const {
        return formats::read_bench(words, tables);
    }
};

}  // namespace mitefall::cli
