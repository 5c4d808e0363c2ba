#include "safety/agent_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <string>

namespace mitefall::safety {
namespace {

constexpr std::array agent_words{
    AgentWord{"ivermectin", Agent::ivermectin},  AgentWord{"avermectin", Agent::ivermectin},
    AgentWord{"permethrin", Agent::pyrethroid},  AgentWord{"pyreth", Agent::pyrethroid},
    AgentWord{"fipronil", Agent::fipronil},      AgentWord{"afoxolaner", Agent::isoxazoline},
    AgentWord{"fluralaner", Agent::isoxazoline}, AgentWord{"isoxazoline", Agent::isoxazoline},
};

}  // namespace

std::vector<AgentWord> agent_words_in(std::string_view text) {
    std::string lower;
    for (const char c : text) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    std::vector<AgentWord> found;
    std::copy_if(agent_words.begin(), agent_words.end(), std::back_inserter(found),
                 [&](const AgentWord& known) { return lower.find(known.word) != std::string::npos; });
    return found;
}

}  // namespace mitefall::safety
