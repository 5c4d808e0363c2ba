#include "words/en/terms.h"

#include <fmt/format.h>

#include "base/contract.h"
#include "evidence/taxa.h"
#include "records/method.h"
#include "records/thing.h"

namespace mitefall::words::en {

std::string and_more(const std::string& names, std::size_t more) {
    return fmt::format("{} and {} more", names, more);
}

std::string counted(double number, std::string_view thing) {
    return fmt::format("{:.0f} {}{}", number, thing, number == 1 ? "" : "s");
}

std::string days(const std::string& number) { return number + " days"; }

std::string with_remedy(const std::string& what, const std::string& remedy) {
    return fmt::format("{}. What to do: {}", what, remedy);
}

namespace {

std::string outside(std::string_view key) {
    switch (records::from_text<records::OutsideKind>(key).value_or(records::OutsideKind::show)) {
        case records::OutsideKind::show: return "a show";
        case records::OutsideKind::shop: return "a shop";
        case records::OutsideKind::animal_held: return "an animal held elsewhere";
        case records::OutsideKind::visitor: return "a visitor";
        case records::OutsideKind::borrowed_thing: return "a borrowed thing";
        case records::OutsideKind::second_hand_wood: return "second-hand wood";
        case records::OutsideKind::live_plants: return "live plants";
    }
    return {};
}

}  // namespace

std::string term(const statement::Term& term) {
    if (term.vocabulary == "method") {
        if (const auto method = records::from_text<records::Method>(term.key))
            return std::string(records::describe(*method));
    }
    if (term.vocabulary == "kind") {
        if (const auto kind = evidence::parse_group(term.key)) return std::string(evidence::describe(*kind));
    }
    if (term.vocabulary == "thing") {
        if (const auto thing = records::from_text<records::ThingKind>(term.key))
            return std::string(records::row_of(*thing).name);
    }
    if (term.vocabulary == "outside") return outside(term.key);
    return std::string(term.key);
}

}  // namespace mitefall::words::en
