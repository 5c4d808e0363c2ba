#include "safety/cupboard.h"

#include <algorithm>
#include <cmath>

#include "mixing/compare.h"
#include "safety/acknowledged.h"
#include "safety/gates.h"
#include "safety/rules.h"
#include "units/within.h"

namespace mitefall::safety {
namespace {

using evidence::IngredientClass;
using evidence::Tables;

/// Something against a use, and what to do about it; nothing where nothing speaks against it.
struct Finding {
    Against against;
    statement::Statement remedy;
};

std::optional<Against> against_on_animal(IngredientClass kind, const std::string& name) {
    switch (kind) {
        case IngredientClass::ivermectin:
        case IngredientClass::food_oil:
        case IngredientClass::mild_soap:
        case IngredientClass::carrier: return std::nullopt;
        case IngredientClass::isoxazoline: return says::prescription();
        case IngredientClass::fipronil: return says::fipronil_disputed();
        case IngredientClass::permethrin:
        case IngredientClass::pyrethroid:
        case IngredientClass::pyrethrin: return says::pyrethroid_on_animal(name);
        case IngredientClass::synergist: return says::synergist_on_animal(name);
        case IngredientClass::organophosphate:
        case IngredientClass::carbamate:
        case IngredientClass::other_nerve_poison: return says::nerve_poison(name);
        case IngredientClass::macrocyclic_lactone:
        case IngredientClass::neonicotinoid:
        case IngredientClass::growth_regulator:
        case IngredientClass::other_insecticide:
        case IngredientClass::film:
        case IngredientClass::sulfur: return says::no_figures_for(name);
        case IngredientClass::strong_soap:
        case IngredientClass::alcohol:
        case IngredientClass::disinfectant:
        case IngredientClass::bleach:
        case IngredientClass::borate:
        case IngredientClass::repellent: return says::burns_skin_and_eyes(name);
        case IngredientClass::antiseptic: return says::antiseptic_on_animal(name);
        case IngredientClass::phenol: return says::phenol(name);
        case IngredientClass::essential_oil: return says::essential_oil_on_animal(name);
        case IngredientClass::dust: return says::dust_on_animal(name);
        case IngredientClass::vapour: return says::vapour_poison(name);
        case IngredientClass::other_drug: return says::another_drug(name);
        case IngredientClass::not_named: return says::rest_not_named(name);
    }
    return says::ingredient_unknown(name);
}

statement::Statement remedy_on_animal(IngredientClass kind) {
    switch (kind) {
        case IngredientClass::isoxazoline: return says::record_direction();
        case IngredientClass::other_drug: return says::another_bottle();
        case IngredientClass::not_named: return says::read_the_label_again();
        default: return says::gentler_methods();
    }
}

std::optional<Against> against_in_empty(IngredientClass kind, const std::string& name) {
    switch (kind) {
        case IngredientClass::ivermectin:
        case IngredientClass::permethrin:
        case IngredientClass::pyrethrin:
        case IngredientClass::synergist:
        case IngredientClass::food_oil:
        case IngredientClass::mild_soap:
        case IngredientClass::strong_soap:
        case IngredientClass::alcohol:
        case IngredientClass::antiseptic:
        case IngredientClass::disinfectant:
        case IngredientClass::bleach:
        case IngredientClass::dust:
        case IngredientClass::carrier:
        case IngredientClass::not_named: return std::nullopt;
        case IngredientClass::pyrethroid:
        case IngredientClass::fipronil: return says::airing_not_known(name);
        case IngredientClass::organophosphate:
        case IngredientClass::carbamate:
        case IngredientClass::other_nerve_poison: return says::nerve_poison(name);
        case IngredientClass::macrocyclic_lactone:
        case IngredientClass::film:
        case IngredientClass::sulfur: return says::no_figures_for(name);
        case IngredientClass::isoxazoline:
        case IngredientClass::neonicotinoid:
        case IngredientClass::growth_regulator:
        case IngredientClass::other_insecticide:
        case IngredientClass::borate:
        case IngredientClass::repellent:
        case IngredientClass::other_drug: return says::not_for_mites(name);
        case IngredientClass::phenol: return says::phenol(name);
        case IngredientClass::essential_oil: return says::smell_stays(name);
        case IngredientClass::vapour: return says::vapour_poison(name);
    }
    return says::ingredient_unknown(name);
}

bool is_active(const IngredientRuling& one) {
    return !one.known ||
           (one.known->kind != IngredientClass::carrier && one.known->kind != IngredientClass::not_named);
}

/// Puts findings into rulings; the rows are looked up in the tables.
class LabelJudge {
  public:
    LabelJudge(const mixing::Label& label, const evidence::Ingredients& ingredients, const Tables& tables)
        : label_(label), ingredients_(ingredients), tables_(tables) {}

    LabelRuling judge() {
        for (const mixing::LabelLine& line : label_.lines) ruled_.ingredients.push_back(of_line(line));
        of_the_whole();
        gather();
        ruled_.reckoned = reckon();
        ruled_.usable = usable();
        if (ruled_.usable == Usable::nothing) {
            say_no_thinning();
        } else {
            add_cautions();
        }
        return std::move(ruled_);
    }

  private:
    void add(UseRuling& use, const Finding& finding) {
        use.reasons.push_back(reason_of(finding.against, tables_, finding.remedy));
        use.ruling = std::max(use.ruling, finding.against.ruling);
    }

    IngredientRuling of_line(const mixing::LabelLine& line) {
        IngredientRuling one{line, std::nullopt, {}, {}, {}};
        const evidence::Ingredient* const known = ingredients_.find(line.name);
        if (known == nullptr) {
            one.like = ingredients_.suggest(line.name);
            for (UseRuling* const use : {&one.on_animal, &one.in_empty}) add(*use, unknown(one));
            return one;
        }
        one.known = *known;
        if (const auto found = against_on_animal(known->kind, known->name))
            add(one.on_animal, {*found, remedy_on_animal(known->kind)});
        if (const auto found = against_in_empty(known->kind, known->name))
            add(one.in_empty, {*found, says::wash_heat_or_freeze()});
        if (known->kind == IngredientClass::ivermectin) of_ivermectin(one);
        if (known->kind == IngredientClass::permethrin) of_permethrin(one);
        return one;
    }

    static Finding unknown(const IngredientRuling& one) {
        statement::Names names;
        for (const std::string& name : one.like) names.push_back({"", name});
        return {says::ingredient_unknown(one.line.name),
                names.empty() ? says::read_the_label_again() : says::ingredient_like(names)};
    }

    static std::optional<Finding> without_strength(const IngredientRuling& one, bool takes_percent) {
        if (one.line.strength && (takes_percent || !one.line.is_bare_percent)) return std::nullopt;
        const std::string& name = one.known->name;
        if (one.line.amount.empty())
            return Finding{says::label_strength_missing(name), says::find_the_strength()};
        return Finding{says::label_strength_unclear(name, one.line.amount), says::find_the_strength()};
    }

    /// As it is in the bottle; what is mixed from it is judged at the bench.
    void of_ivermectin(IngredientRuling& one) {
        if (const auto found = without_strength(one, false)) {
            add(one.on_animal, *found);
            add(one.in_empty, *found);
            return;
        }
        const units::Strength strength = *one.line.strength;
        const auto compared = mixing::compare_strength(strength, tables_);
        if (compared.standing != mixing::Standing::above) return;
        const Against too_strong =
            is_beyond_practice(strength, tables_)
                ? says::beyond_practice(strength, tables_.strength("highest_spray_strength").value)
                : says::strong_spray(strength, compared.multiple, compared.strongest);
        for (UseRuling* const use : {&one.on_animal, &one.in_empty})
            add(*use, {too_strong, says::mix_at_most(compared.limit)});
    }

    void of_permethrin(IngredientRuling& one) {
        if (const auto found = without_strength(one, true)) return add(one.in_empty, *found);
        const units::Strength usual = tables_.strength("permethrin_strength").value;
        if (units::is_within(*one.line.strength, usual)) return;
        add(one.in_empty, {says::strong_permethrin(*one.line.strength, usual), says::mix_by_label(usual)});
    }

    [[nodiscard]] std::vector<const IngredientRuling*> actives() const {
        std::vector<const IngredientRuling*> found;
        for (const IngredientRuling& one : ruled_.ingredients)
            if (is_active(one)) found.push_back(&one);
        return found;
    }

    [[nodiscard]] bool holds(IngredientClass kind) const {
        return std::any_of(ruled_.ingredients.begin(), ruled_.ingredients.end(),
                           [&](const IngredientRuling& one) { return one.known && one.known->kind == kind; });
    }

    [[nodiscard]] std::string name_of_the_rest() const {
        for (const IngredientRuling& one : ruled_.ingredients)
            if (one.known && one.known->kind == IngredientClass::not_named) return one.known->name;
        return {};
    }

    /// What no ingredient says alone.
    void of_the_whole() {
        const auto active = actives();
        const auto both = [&](const Finding& finding) {
            add(ruled_.on_animal, finding);
            add(ruled_.in_empty, finding);
        };
        if (active.empty()) both({says::no_active_ingredient(), says::read_the_label_again()});
        if (label_.form == mixing::StockForm::pour_on || label_.form == mixing::StockForm::paste)
            both({says::form_for_mouth_or_skin({"stock-form", mixing::to_text(label_.form)}),
                  says::another_bottle()});
        if (!holds(IngredientClass::ivermectin)) return;
        if (label_.form == mixing::StockForm::not_told)
            both({says::label_form_missing(), says::say_what_it_is()});
        // What it is thinned for lies under an animal sooner or later.
        if (holds(IngredientClass::not_named))
            add(ruled_.in_empty, {says::rest_not_named(name_of_the_rest()), says::read_the_label_again()});
        if (active.size() < 2 && label_.form != mixing::StockForm::combination) return;
        statement::Names names;
        for (const IngredientRuling* const one : active) names.push_back({"", one->line.name});
        both({says::combined(names), says::another_bottle()});
    }

    /// The worst ingredient decides; the same reason once.
    void gather() {
        for (IngredientRuling& one : ruled_.ingredients) {
            gather_use(ruled_.on_animal, one.on_animal);
            gather_use(ruled_.in_empty, one.in_empty);
        }
    }
    static void gather_use(UseRuling& whole, UseRuling& part) {
        sort(part);
        whole.ruling = std::max(whole.ruling, part.ruling);
        whole.reasons.insert(whole.reasons.end(), part.reasons.begin(), part.reasons.end());
        sort(whole);
    }
    static void sort(UseRuling& use) {
        std::stable_sort(use.reasons.begin(), use.reasons.end(),
                         [](const Reason& a, const Reason& b) { return a.ruling > b.ruling; });
    }

    /// Only what has one active ingredient, of known strength.
    [[nodiscard]] std::optional<Reckoned> reckon() const {
        const auto active = actives();
        if (active.size() != 1 || !active.front()->known || !active.front()->line.strength)
            return std::nullopt;
        const units::Strength strength = *active.front()->line.strength;
        const bool is_bare = active.front()->line.is_bare_percent;
        if (active.front()->known->kind == IngredientClass::permethrin)
            return Reckoned{Agent::pyrethroid, strength, tables_.strength("permethrin_strength").value};
        if (active.front()->known->kind == IngredientClass::ivermectin && !is_bare)
            return Reckoned{Agent::ivermectin, strength, tables_.strength("published_strength_high").value};
        return std::nullopt;
    }

    /// Whether thinning with water would take away all that speaks against the use.
    [[nodiscard]] static bool is_only_too_strong(const UseRuling& use) {
        return std::all_of(use.reasons.begin(), use.reasons.end(), [](const Reason& reason) {
            return reason.what.id == says::beyond_practice.kind.id ||
                   reason.what.id == says::strong_spray.kind.id ||
                   reason.what.id == says::strong_permethrin.kind.id;
        });
    }

    [[nodiscard]] Usable usable() const {
        const bool is_thinned = ruled_.reckoned && ruled_.reckoned->is_to_be_thinned();
        if (ruled_.on_animal.reasons.empty()) return Usable::animal;
        if (is_thinned && is_only_too_strong(ruled_.on_animal)) return Usable::animal_once_thinned;
        if (ruled_.in_empty.reasons.empty()) return Usable::empty;
        if (is_thinned && is_only_too_strong(ruled_.in_empty)) return Usable::empty_once_thinned;
        return Usable::nothing;
    }

    /// Where more than its strength speaks against it nobody is told to thin it.
    void say_no_thinning() {
        const auto correct = [](UseRuling& use) {
            for (Reason& reason : use.reasons) {
                const auto& told = reason.remedy.id;
                if (told == says::mix_at_most.id || told == says::mix_by_label.id)
                    reason.remedy = says::another_bottle();
            }
        };
        correct(ruled_.on_animal);
        correct(ruled_.in_empty);
        for (IngredientRuling& one : ruled_.ingredients) {
            correct(one.on_animal);
            correct(one.in_empty);
        }
    }

    /// Each caution once.
    void warn(Heed caution) {
        const auto& told = ruled_.cautions;
        const bool is_told = std::any_of(told.begin(), told.end(),
                                         [&](const Caution& one) { return one.what == caution.what; });
        if (!is_told) heed(ruled_.cautions, tables_, std::move(caution));
    }

    void add_cautions() {
        if (ruled_.usable == Usable::animal || ruled_.usable == Usable::animal_once_thinned)
            warn(says::each_animal_by_its_verdict());
        for (const IngredientRuling& one : ruled_.ingredients) {
            if (one.known) cautions_of(one);
        }
        warn(says::label_and_law());
    }

    void cautions_of(const IngredientRuling& one) {
        const auto airing = tables_.time("pyrethroid_airing");
        switch (one.known->kind) {
            case IngredientClass::ivermectin:
                warn(says::plain_solution_only());
                warn(says::leftovers_of_ivermectin());
                if (mixing::compare_strength(*one.line.strength, tables_).standing ==
                    mixing::Standing::weaker)
                    warn(says::weak_spray(*one.line.strength,
                                          tables_.strength("published_strength_low").value));
                return;
            case IngredientClass::permethrin:
                if (one.line.is_bare_percent)
                    warn(says::percent_as_in_volume(one.known->name, *one.line.strength));
                [[fallthrough]];
            case IngredientClass::pyrethrin:
                warn(says::dry_and_aired(airing.value, airing.low));
                warn(says::permethrin_and_others());
                return;
            case IngredientClass::food_oil:
                warn(says::oil_is_a_home_remedy());
                warn(says::plain_oil_only());
                return;
            case IngredientClass::mild_soap: warn(says::soap_is_a_home_remedy()); return;
            case IngredientClass::dust:
                warn(says::dust_in_the_empty(tables_.time("dust_time").value));
                warn(says::dust_and_lungs());
                return;
            case IngredientClass::alcohol: warn(says::burns_easily()); break;
            case IngredientClass::bleach: warn(says::bleach_alone()); break;
            case IngredientClass::antiseptic:
            case IngredientClass::disinfectant: break;
            default: return;
        }
        warn(says::kills_no_mites(one.known->name));
        warn(says::rinse_and_dry());
    }

    const mixing::Label& label_;
    const evidence::Ingredients& ingredients_;
    const Tables& tables_;
    LabelRuling ruled_;
};

/// Active ingredients by the names to compare them by.
std::vector<std::pair<std::string, const IngredientRuling*>> named_actives(const LabelRuling& label) {
    std::vector<std::pair<std::string, const IngredientRuling*>> all;
    for (const IngredientRuling& one : label.ingredients) {
        if (is_active(one)) all.emplace_back(one.known ? one.known->name : one.line.name, &one);
    }
    return all;
}

const IngredientRuling* among(const std::vector<std::pair<std::string, const IngredientRuling*>>& all,
                              const std::string& name) {
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.first == name; });
    return found == all.end() ? nullptr : found->second;
}

bool are_equal(units::Strength a, units::Strength b) { return std::fabs(a / b - 1) < 1e-9; }

}  // namespace

bool Reckoned::is_to_be_thinned() const { return !units::is_within(strength, used_at); }

LabelRuling judge_label(const mixing::Label& label, const evidence::Ingredients& ingredients,
                        const evidence::Tables& tables) {
    return LabelJudge(label, ingredients, tables).judge();
}

LabelComparison compare_labels(const LabelRuling& first, mixing::StockForm first_form,
                               const LabelRuling& second, mixing::StockForm second_form) {
    const auto a = named_actives(first);
    const auto b = named_actives(second);
    LabelComparison compared;
    bool is_all_known =
        first_form != mixing::StockForm::not_told && second_form != mixing::StockForm::not_told;
    bool is_same_strength = true;
    for (const auto& [name, one] : a) {
        const IngredientRuling* const other = among(b, name);
        if (other == nullptr) {
            compared.only_first.push_back(name);
            continue;
        }
        compared.both.push_back(name);
        const bool is_told = one->known && one->line.strength && other->line.strength &&
                             one->line.is_bare_percent == other->line.is_bare_percent;
        is_all_known = is_all_known && is_told;
        if (!is_told) continue;
        is_same_strength = is_same_strength && are_equal(*one->line.strength, *other->line.strength);
        compared.times = *other->line.strength / *one->line.strength;
    }
    for (const auto& [name, other] : b) {
        if (among(a, name) == nullptr) compared.only_second.push_back(name);
    }
    if (compared.both.size() != 1) compared.times.reset();
    const bool are_the_same = compared.only_first.empty() && compared.only_second.empty() && !a.empty();
    compared.alike = compared.both.empty()       ? Alike::different
                     : !are_the_same             ? Alike::shared
                     : !is_all_known             ? Alike::not_told
                     : first_form != second_form ? Alike::other_form
                     : is_same_strength          ? Alike::same
                                                 : Alike::other_strength;
    return compared;
}

}  // namespace mitefall::safety
