#include "clearance/after.h"

#include <array>

#include "base/contract.h"
#include "units/whole_days.h"

namespace mitefall::clearance {
namespace {

struct Disease {
    statement::Kind<> what;
    bool by_mites;
    std::string_view source;
};

constexpr std::array diseases{
    Disease{after::test_inclusion_body, true, "chang-jacobson-2010"},
    Disease{after::test_septicaemia, true, "camin-1948"},
    Disease{after::test_blood_parasites, true, "veterinary-handbook"},
    Disease{after::test_serpentovirus, false, "veterinary-handbook"},
    Disease{after::test_ferlavirus, false, "veterinary-handbook"},
    Disease{after::test_cryptosporidium, false, "veterinary-handbook"},
    Disease{after::test_skin_fungus, false, "veterinary-handbook"},
    Disease{after::test_worms, false, "veterinary-handbook"},
};

}  // namespace

std::vector<Told> other_diseases(const evidence::Tables& tables) {
    std::vector<Told> told;
    for (const Disease& disease : diseases) {
        const auto source = tables.sources().find(disease.source);
        base::expects(source != tables.sources().end(), "the source of a disease is in the evidence");
        told.push_back({disease.what(), evidence::Tag::memory, source->second, disease.by_mites});
    }
    return told;
}

std::vector<Told> habits(const evidence::Tables& tables) {
    const auto practice = evidence::Tag::common_practice;
    const auto apart = tables.time("quarantine");
    return {{after::keep_newcomers_apart(static_cast<double>(units::at_least_days(apart.low).count())),
             apart.tag, std::string(apart.source)},
            {after::keep_visitors_off(), practice},
            {after::keep_things_out(), practice},
            {after::keep_looking(), practice},
            {after::bites_on_people(), evidence::Tag::memory, tables.sources().at("veterinary-handbook")}};
}

}  // namespace mitefall::clearance
