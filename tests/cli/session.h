#pragma once

#include <sstream>

#include "../store/scratch.h"
#include "cli/app.h"

namespace mitefall::cli {

/// Commands in process on a new collection, on one fixed day.
class Session : public store::Scratch {
  protected:
    Session() { run({"new"}); }

    int run(std::vector<std::string> arguments) {
        out_.str("");
        err_.str("");
        Surroundings surroundings{out_,
                                  err_,
                                  {units::parse_day("2026-06-15").value(), "2026-06-15T21:00:00Z"},
                                  at("c").string(),
                                  false};
        std::istringstream typed(answers_);
        if (!answers_.empty()) surroundings.answers = &typed;
        return cli::run(std::move(arguments), surroundings);
    }

    std::ostringstream out_;
    std::ostringstream err_;
    std::string answers_;  ///< what somebody types; empty: nobody is there
};

}  // namespace mitefall::cli
