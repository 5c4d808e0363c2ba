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

std::string term(const statement::Term& term) {
    if (term.vocabulary == "method") {
        if (const auto method = records::from_text<records::Method>(term.key))
            return std::string(records::describe(*method));
    }
    if (term.vocabulary == "kind") {
        if (const auto kind = evidence::parse_group(term.key)) return std::string(evidence::describe(*kind));
    }
    return std::string(term.key);
}

}  // namespace mitefall::words::en
