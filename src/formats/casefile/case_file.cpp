#include "formats/casefile/case_file.h"

#include <algorithm>
#include <set>

#include "formats/casefile/actions.h"
#include "formats/casefile/parameters.h"
#include "records/limits.h"
#include "scenario/pace.h"
#include "scenario/seen.h"

namespace mitefall::formats {
namespace {

using scenario::PlaceIndex;

constexpr int format_number = 1;
constexpr Range horizon_range{0, 3650, true, false};  // days
constexpr Range count_range{0, 1e9, true, true};
constexpr Range substage_range{0, 63, false, true};
constexpr Range entry_range{1, 120, false, false};  // days

class CaseReader {
  public:
    CaseReader(const Json& document, const mites::Ensemble& base) : fields_(document, "", fault_) {
        result_.ensemble = base;
    }

    base::Result<CaseFile> read() {
        read_head();
        if (const Json* const places = fields_.need("places")) {
            places_.read(*places, fields_.pointer("places"), fault_, result_.scenario);
        }
        read_start();
        horizon_days_ = fields_.number("horizon_days", horizon_range);
        result_.to = result_.from + horizon_days_;
        read_steps();
        if (const Json* const parameters = fields_.find("parameters")) {
            read_parameters(*parameters, fields_.pointer("parameters"), fault_, result_.ensemble);
        }
        fields_.finish();
        check_detection();
        check_whole();
        if (fault_.found()) return base::fail(*fault_.error());
        return std::move(result_);
    }

  private:
    void read_head() {
        const double version = fields_.number("mitefall_case", {1, 1e6, false, true});
        if (version > format_number) {
            base::Error error =
                base::invalid("a case format from a newer version", std::to_string(static_cast<int>(version)),
                              "format 1", "use a newer version of the program");
            error.kind = base::ErrorKind::unsupported;
            fault_.note(std::move(error), fields_.pointer("mitefall_case"));
        }
        result_.title = fields_.text("title");
        if (const auto good = records::check_needed_text("title", result_.title); !good) {
            fault_.note(good.error(), fields_.pointer("title"));
        }
    }

    void read_start() {
        const Json* const mites = fields_.find("mites");
        const Json* const sightings = fields_.find("sightings");
        if ((mites == nullptr) == (sightings == nullptr)) {
            const std::string key = mites == nullptr ? "mites" : "sightings";
            fields_.refuse(key, "what the case starts from is not clear",
                           mites == nullptr ? "neither" : "both", "either \"mites\" or \"sightings\"");
        } else if (mites != nullptr) {
            read_mites(*mites);
        } else {
            read_sightings(*sightings);
        }
    }

    void read_mites(const Json& array) {
        forecast::KnownStart start;
        for_elements(array, fields_.pointer("mites"), fault_, [&](const Json& object, const std::string& at) {
            Fields fields(object, at, fault_);
            scenario::MiteCount group;
            group.place = places_.find(fields, "place", PlaceNeed::any);
            group.stage = read_stage(fields, places_.is_room(group.place));
            group.count = fields.number("count", count_range);
            group.substage = static_cast<int>(fields.number_or("substage", 0, substage_range));
            fields.finish();
            start.push_back(group);
        });
        result_.start = std::move(start);
    }

    void read_sightings(const Json& array) {
        forecast::SightedStart start;
        for_elements(array, fields_.pointer("sightings"), fault_,
                     [&](const Json& object, const std::string& at) {
                         Fields fields(object, at, fault_);
                         start.push_back(read_sighting(fields));
                         fields.finish();
                     });
        if (start.empty()) fields_.refuse("sightings", "there is no sighting", "", "at least one");
        finish_sightings(start);
        result_.start = std::move(start);
    }

    /// `entered_on` holds minus the days since the entry until all are read.
    forecast::Sighting read_sighting(Fields& fields) {
        forecast::Sighting sighting;
        sighting.seen_at = sighting.entered_at = places_.find(fields, "place", PlaceNeed::enclosure);
        if (!sighted_.insert(sighting.seen_at).second) {
            fields.refuse("place", "two sightings name this enclosure", fields.text("place").substr(0, 60),
                          "the latest one");
        }
        const auto count = fields.word("count", records::SeenCount::one);
        if (count == records::SeenCount::none)
            fields.refuse("count", "nothing seen is no sighting", "none", "1, 2-10, 11-50, more");
        const scenario::SeenRange seen = scenario::range_of(count);
        sighting.seen_low = seen.low;
        sighting.seen_high = seen.high;
        sighting.on_animal =
            fields.word("where", records::SeenWhere::on_animal) == records::SeenWhere::on_animal;
        sighting.entered_on = -fields.number("days_since_entry", entry_range);
        check_animal(fields, sighting);
        return sighting;
    }

    void check_animal(Fields& fields, const forecast::Sighting& sighting) {
        if (fault_.found() || result_.scenario.places[sighting.seen_at].animals > 0) return;
        fields.refuse("place", "mites can only have come in with an animal, and there is none",
                      fields.text("place").substr(0, 60), "at least 1 animal");
    }

    /// The scenario begins with the earliest entry.
    void finish_sightings(forecast::SightedStart& start) {
        for (const forecast::Sighting& sighting : start)
            result_.from = std::max(result_.from, -sighting.entered_on);
        for (forecast::Sighting& sighting : start) {
            sighting.entered_on += result_.from;
            sighting.seen_on = result_.from;
        }
    }

    void read_steps() {
        CaseSteps steps(places_, {result_.from, horizon_days_}, fault_);
        if (const Json* const actions = fields_.find("actions"))
            steps.read_actions(*actions, fields_.pointer("actions"));
        if (const Json* const checks = fields_.find("checks"))
            steps.read_checks(*checks, fields_.pointer("checks"));
        steps.write(result_.scenario, result_.ensemble.fixed);
    }

    /// A sighting says nothing about numbers where nobody could have seen a mite.
    void check_detection() {
        const auto* const sightings = std::get_if<forecast::SightedStart>(&result_.start);
        if (sightings == nullptr) return;
        const bool elsewhere =
            std::any_of(sightings->begin(), sightings->end(), [](const auto& s) { return !s.on_animal; });
        if (!(result_.ensemble.mode.detection_light > 0)) refuse_detection("detection_light");
        if (elsewhere && !(result_.ensemble.mode.detection_nest_part > 0))
            refuse_detection("detection_nest_part");
    }

    void refuse_detection(const std::string& key) {
        fault_.note(
            base::invalid("with this a mite could never have been seen, yet the case starts from a sighting",
                          "0", "above 0", "correct it or start from \"mites\""),
            pointer_to(fields_.pointer("parameters"), key));
    }

    void check_whole() {
        if (fault_.found()) return;
        if (const auto good = scenario::check_scenario(result_.scenario); !good)
            fault_.note(good.error(), "");
        else if (const auto bearable = scenario::check_pace(result_.scenario, result_.ensemble); !bearable)
            fault_.note(bearable.error(), fields_.pointer("parameters"));
    }

    Fault fault_;
    Fields fields_;
    CasePlaces places_;
    CaseFile result_;
    std::set<PlaceIndex> sighted_;
    double horizon_days_ = 0;
};

}  // namespace

forecast::ForecastRequest request_of(const CaseFile& given) {
    forecast::ForecastRequest request;
    request.scenario = &given.scenario;
    request.ensemble = &given.ensemble;
    std::visit([&](const auto& start) { request.start = start; }, given.start);
    request.from = given.from;
    request.to = given.to;
    return request;
}

base::Result<CaseFile> read_case(std::string_view text, const mites::Ensemble& base) {
    const auto document = read_document(text, {most_case_bytes, 8});
    if (!document) return base::fail(document.error());
    return CaseReader(*document, base).read();
}

}  // namespace mitefall::formats
