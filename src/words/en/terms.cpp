#include "words/en/terms.h"

#include <fmt/format.h>

#include "base/contract.h"
#include "evidence/taxa.h"
#include "records/method.h"

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

std::string sign(std::string_view key) {
    const auto known = records::from_text<records::Sign>(key);
    base::expects(known.has_value(), "a term of signs is one of them");
    switch (*known) {
        case records::Sign::pale_gums: return "pale gums";
        case records::Sign::limp: return "limp";
        case records::Sign::gaping: return "gaping, or bubbles at mouth or nose";
        case records::Sign::cannot_right_itself: return "cannot right itself";
        case records::Sign::red_belly: return "red belly or blisters";
        case records::Sign::swollen_eyes: return "swollen eyes";
        case records::Sign::retained_eye_caps: return "eye caps kept after a shed";
        case records::Sign::not_eating: return "not eating and losing weight";
        case records::Sign::many_mites: return "more than 50 mites on a small animal";
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
    if (term.vocabulary == "sign") return sign(term.key);
    if (term.vocabulary == "outside") return outside(term.key);
    return std::string(term.key);
}

}  // namespace mitefall::words::en
