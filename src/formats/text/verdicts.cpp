#include "formats/text/verdicts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "formats/text/cautions.h"
#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "formats/text/verdict_table.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using records::Collection;
using records::Method;

std::vector<Method> methods_on(records::Shelf shelf) {
    std::vector<Method> methods;
    for (const records::MethodRow& row : records::method_rows) {
        if (row.shelf == shelf) methods.push_back(row.method);
    }
    return methods;
}

std::string why_text(const safety::Verdict& verdict, const Collection& collection) {
    std::string text = fmt::format("{}, {}: {}\n", animal_name(collection, verdict.animal),
                                   records::describe(verdict.method), safety::describe(verdict.ruling));
    for (const safety::Reason& reason : verdict.reasons) {
        const std::string remedy =
            reason.remedy.empty() ? "" : "What to do: " + words::say(reason.remedy) + ". ";
        text += wrap(words::say(reason.what) + ". " + remedy + source_note(reason.source, reason.tag), "  - ",
                     "    ");
    }
    return text;
}

}  // namespace

std::string verdicts_text(const std::vector<safety::Verdict>& verdicts, const Collection& collection,
                          VerdictDetail detail) {
    std::map<records::AnimalId, VerdictsByMethod> by_animal;
    for (const safety::Verdict& verdict : verdicts) by_animal[verdict.animal][verdict.method] = &verdict;
    std::string text = heading("What each animal can be given");
    const auto table = [&](records::Shelf shelf) {
        return verdict_table(by_animal, collection, methods_on(shelf), detail.every_animal);
    };
    text += table(records::Shelf::usual);
    if (detail.every_method) {
        text += heading("Without acaricides") + table(records::Shelf::home);
        text += heading("Only with a veterinarian") + table(records::Shelf::veterinary);
    } else {
        text += "Oil, soap, heat, cold, dust, predatory mites, prescription drugs: \"verdicts --all\".\n";
    }
    if (!detail.reasons) return text + "The reasons: \"verdicts --reasons\".\n";
    text += heading("Why");
    std::vector<const safety::Verdict*> told;
    for (const safety::Verdict& verdict : verdicts) {
        const bool is_shown =
            detail.every_method || records::row_of(verdict.method).shelf == records::Shelf::usual;
        if (is_shown && !verdict.reasons.empty()) told.push_back(&verdict);
    }
    std::stable_sort(told.begin(), told.end(), [](auto a, auto b) { return a->ruling > b->ruling; });
    for (const safety::Verdict* const verdict : told) text += why_text(*verdict, collection);
    return text;
}

}  // namespace mitefall::formats
