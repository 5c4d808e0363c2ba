#pragma once

#include <string_view>
#include <vector>

#include "safety/methods.h"

namespace mitefall::safety {

/// A word for a drug as a keeper may write it, in lower case.
struct AgentWord {
    std::string_view word;
    Agent agent = Agent::none;
};

/// The words for drugs known here that stand in the text, in whatever case.
[[nodiscard]] std::vector<AgentWord> agent_words_in(std::string_view text);

}  // namespace mitefall::safety
