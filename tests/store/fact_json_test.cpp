#include "store/fact_json.h"

#include <gtest/gtest.h>

#include <limits>

#include "any_fact.h"

namespace mitefall::store {
namespace {

using base::ErrorKind;
using records::Fact;

TEST(FactJson, every_kind_reads_back_bit_for_bit) {
    for (std::size_t kind = 0; kind < kinds_of_fact; ++kind) {
        SCOPED_TRACE(kind);
        EXPECT_TRUE(rc::check("a fact written and read again is the same fact", [&] {
            const Fact fact = any_fact(kind);
            const FactText text = encode(fact).value();
            const auto read = decode(1, text.kind, text.body);
            RC_ASSERT(read.has_value());
            RC_ASSERT(read->index() == kind);
            RC_ASSERT(*read == fact);
            RC_ASSERT(encode(*read).value().body == text.body);  // == takes -0 for 0; the text does not
        }));
    }
}

TEST(FactJson, numbers_keep_every_bit) {
    EXPECT_TRUE(rc::check("a mass written and read again has the same bits", [] {
        const double grams = any_number();
        const FactText text = encode(records::Weighed{records::AnimalId("x"), units::grams(grams)}).value();
        const auto read = std::get<records::Weighed>(decode(1, text.kind, text.body).value());
        RC_ASSERT(std::bit_cast<std::uint64_t>(in_grams(read.mass)) == std::bit_cast<std::uint64_t>(grams));
    }));
}

// The file format: a change here makes old files unreadable.
TEST(FactJson, facts_have_the_published_form) {
    const records::Climate climate{units::celsius(29.5), units::celsius(25),
                                   units::relative_humidity_percent(60)};
    const FactText added =
        encode(records::EnclosureAdded{records::EnclosureId("r1-04"), "Juno's tub", records::RoomId("r1"),
                                       records::Material::sealed, records::Substrate::loose, climate,
                                       units::square_centimetres(4000)})
            .value();
    EXPECT_EQ(added.kind, "enclosure-added");
    EXPECT_EQ(
        added.body,
        R"({"day_c":29.5,"enclosure":"r1-04","floor_cm2":4000.0,"humidity_percent":60.0,"material":"sealed",)"
        R"("name":"Juno's tub","night_c":25.0,"room":"r1","substrate":"loose"})");
    const FactText treated = encode(records::Treated{records::EnclosureId("a"),
                                                     {records::AnimalId("juno")},
                                                     records::Method::spray_animal,
                                                     units::milligrams_per_litre(10)})
                                 .value();
    EXPECT_EQ(treated.body,
              R"({"animals":["juno"],"enclosure":"a","method":"spray-animal","strength_mg_per_l":10.0})");
    EXPECT_EQ(encode(records::Weighed{records::AnimalId("juno"), units::grams(812)}).value().body,
              R"({"animal":"juno","mass_g":812.0})");
    const FactText room =
        encode(records::RoomTreated{records::RoomId("r1"), units::milligrams_per_litre(5000)}).value();
    EXPECT_EQ(room.kind, "room-treated");
    EXPECT_EQ(room.body, R"({"room":"r1","strength_mg_per_l":5000.0})");
    const FactText ended = encode(records::QuarantineEnded{records::AnimalId("juno")}).value();
    EXPECT_EQ(ended.kind, "quarantine-ended");
    EXPECT_EQ(ended.body, R"({"animal":"juno"})");
    const FactText early = encode(records::QuarantineEnded{records::AnimalId("juno"), "room needed"}).value();
    EXPECT_EQ(early.body, R"({"animal":"juno","reason":"room needed"})");
    const records::AnimalId juno("juno");
    EXPECT_EQ(encode(records::AnimalMoved{juno, records::EnclosureId("a")}).value().body,
              R"({"animal":"juno","to":"a"})");
    EXPECT_EQ(encode(records::AnimalLeft{juno, "sold"}).value().body, R"({"animal":"juno","reason":"sold"})");
    EXPECT_EQ(encode(records::AnimalLeft{juno, "sold", true, "they know"}).value().body,
              R"({"animal":"juno","knowing":true,"knowing_reason":"they know","reason":"sold"})");
    EXPECT_EQ(decode(1, "animal-left", R"({"animal":"juno","reason":"sold"})").value(),
              Fact(records::AnimalLeft{juno, "sold"}));
}

// As written before animals could be soaked by plan, and as a plan without soaks is still written.
TEST(FactJson, an_adopted_plan_of_before_means_the_spray) {
    const std::string before = R"({"change_substrate":true,"enclosures":["a"],"keep_damp":false,"rooms":[],)"
                               R"("rounds":["2026-11-25"],"strength_mg_per_l":10.0})";
    const auto read = decode(1, "plan-adopted", before);
    ASSERT_TRUE(read) << read.error().message();
    const auto& plan = std::get<records::PlanAdopted>(*read);
    EXPECT_FALSE(plan.choices.soak_animals);
    EXPECT_EQ(encode(plan).value().body, before);
    records::PlanAdopted soaking = plan;
    soaking.choices.soak_animals = true;
    const std::string with_soaks =
        R"({"change_substrate":true,"enclosures":["a"],"keep_damp":false,"rooms":[],)"
        R"("rounds":["2026-11-25"],"soak_animals":true,"strength_mg_per_l":10.0})";
    EXPECT_EQ(encode(soaking).value().body, with_soaks);
    EXPECT_EQ(std::get<records::PlanAdopted>(decode(1, "plan-adopted", with_soaks).value()), soaking);
}

TEST(FactJson, directions_and_acknowledgements_from_before_they_said_more_are_read) {
    const std::string direction = R"({"animal":"x","method":"soak","text":"as agreed","who":"Dr. A"})";
    const auto read = decode(1, "vet-direction", direction);
    ASSERT_TRUE(read) << read.error().message();
    auto directed = std::get<records::VetDirection>(*read);
    EXPECT_EQ(directed.strength, units::Strength{});
    EXPECT_EQ(directed.treatments, 0);
    EXPECT_EQ(encode(directed).value().body, direction);
    directed.treatments = 3;
    EXPECT_EQ(encode(directed).value().body,
              R"({"animal":"x","method":"soak","text":"as agreed","treatments":3,"who":"Dr. A"})");
    const std::string strength = R"({"strength_mg_per_l":200.0})";
    const auto acknowledged = decode(1, "strength-acknowledged", strength);
    ASSERT_TRUE(acknowledged) << acknowledged.error().message();
    EXPECT_TRUE(std::get<records::StrengthAcknowledged>(*acknowledged).animal.empty());
    EXPECT_EQ(encode(*acknowledged).value().body, strength);
}

// The keys of the terms came later; files without them hold a plan of which they are not known.
TEST(FactJson, the_terms_of_a_course_are_read_as_written_and_may_be_missing) {
    const std::string before = R"({"change_substrate":true,"enclosures":["a"],"keep_damp":false,"rooms":[],)"
                               R"("rounds":["2026-11-25"],"strength_mg_per_l":10.0})";
    EXPECT_FALSE(std::get<records::PlanAdopted>(decode(1, "plan-adopted", before).value()).terms.are_known());
    const std::string row = R"({"animals":["x"],"day":"2026-11-27","enclosure":"a","method":"soak",)"
                            R"("planned":"2026-11-25","room":"","task":"2026-11-25/animal/x"})";
    const std::string now = R"({"change_substrate":true,"enclosures":["a"],"keep_damp":false,"left_out":[)"
                            R"({"animal":"y","day":"2026-11-25","enclosure":"a","method":"spray-animal",)"
                            R"("reason":"thin"}],"rooms":[],"rounds":["2026-11-25"],"scope":"sighted",)"
                            R"("strength_mg_per_l":10.0,"treatments":[)" +
                            row + "]}";
    const auto read = decode(1, "plan-adopted", now);
    ASSERT_TRUE(read) << read.error().message();
    const records::CourseTerms& terms = std::get<records::PlanAdopted>(*read).terms;
    EXPECT_EQ(terms.treatments.front().method, records::Method::soak);
    EXPECT_EQ(terms.left_out.front().reason, "thin");
    EXPECT_EQ(encode(std::get<records::PlanAdopted>(*read)).value().body, now);
}

TEST(FactJson, a_row_of_a_course_is_refused_unless_it_is_whole) {
    const auto with = [](const std::string& treatments) {
        return decode(7, "plan-adopted",
                      R"({"change_substrate":true,"enclosures":["a"],"keep_damp":false,"rooms":[],)"
                      R"("rounds":[],"scope":"sighted","strength_mg_per_l":0.0,"treatments":)" +
                          treatments + "}");
    };
    EXPECT_TRUE(with("[]"));
    for (const char* const broken :
         {"7", "[7]", "[{}]", R"([{"method":"soak"}])", R"([{"method":"soak","method":"wipe"}])"}) {
        const auto read = with(broken);
        ASSERT_FALSE(read) << broken;
        EXPECT_NE(read.error().where.find("fact 7"), std::string::npos);
    }
}

TEST(FactJson, refuses_to_write_what_json_cannot_hold) {
    for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity()}) {
        const auto text = encode(records::Weighed{records::AnimalId("x"), units::grams(bad)});
        ASSERT_FALSE(text);
        EXPECT_NE(text.error().what.find("mass_g"), std::string::npos);
    }
    const auto bytes = encode(records::TaskDone{"\xFF"});
    ASSERT_FALSE(bytes);
    EXPECT_EQ(bytes.error().kind, ErrorKind::invalid_input);
    const units::Day far{units::Days(200000)};
    EXPECT_FALSE(encode(records::PlanAdopted{{far}, {}, {}, {false, false}, {}}));
}

struct Broken {
    const char* kind;
    const char* body;
    const char* where;
    const char* what;
};

class BrokenFacts : public ::testing::TestWithParam<Broken> {};

TEST_P(BrokenFacts, are_refused_naming_fact_and_key) {
    const auto read = decode(17, GetParam().kind, GetParam().body);
    ASSERT_FALSE(read) << GetParam().body;
    EXPECT_EQ(read.error().kind, ErrorKind::damaged);
    EXPECT_EQ(read.error().where, std::string("fact 17, ") + GetParam().where);
    EXPECT_NE(read.error().what.find(GetParam().what), std::string::npos) << read.error().message();
}

INSTANTIATE_TEST_SUITE_P(
    Store, BrokenFacts,
    ::testing::Values(
        Broken{"weighed", "", "body", "not a JSON object"},
        Broken{"weighed", "{", "body", "not a JSON object"},
        Broken{"weighed", "[]", "body", "not a JSON object"},
        Broken{"weighed", "null", "body", "not a JSON object"},
        Broken{"weighed", R"({"animal":"x","mass_g":1} x)", "body", "not a JSON object"},
        Broken{"weighed", R"({"animal":"x","mass_g":1e999})", "body", "not a JSON object"},
        Broken{"weighed", R"({"animal":"x"})", "mass_g", "missing"},
        Broken{"weighed", R"({"mass_g":1.0})", "animal", "missing"},
        Broken{"weighed", R"({"animal":"x","mass_g":"1"})", "mass_g", "not a number"},
        Broken{"weighed", R"({"animal":"x","mass_g":null})", "mass_g", "not a number"},
        Broken{"weighed", R"({"animal":7,"mass_g":1.0})", "animal", "not a text"},
        Broken{"weighed", R"({"animal":"x","mass_g":1.0,"mass_kg":1.0})", "mass_kg", "unknown key"},
        Broken{"weighed", R"({"animal":"x","mass_g":1.0,"mass_g":2.0})", "mass_g", "stands twice"},
        Broken{"weigh", R"({"animal":"x","mass_g":1.0})", "kind", "unknown kind"},
        Broken{"", R"({})", "kind", "unknown kind"},
        Broken{"shed-seen", R"({"animal":"x","state":"shedding"})", "state", "no such choice"},
        Broken{"water-moved", R"({"enclosure":"a","out":1})", "out", "not a yes or no"},
        Broken{"handled", R"({"animals":"x","shared_bag":false})", "animals", "not a list"},
        Broken{"handled", R"({"animals":["x",1],"shared_bag":false})", "animals", "not a text in the list"},
        Broken{"plan-adopted",
               R"({"rounds":[],"enclosures":[],"rooms":[],"change_substrate":false,"keep_damp":false,)"
               R"("strength_mg_per_l":0.0,"soak_animals":1})",
               "soak_animals", "not a yes or no"},
        Broken{"vet-direction", R"({"animal":"x","method":"soak","text":"a","who":"b","treatments":1.5})",
               "treatments", "not a whole number"},
        Broken{"vet-direction",
               R"({"animal":"x","method":"soak","text":"a","who":"b","treatments":18446744073709551615})",
               "treatments", "not a whole number"},
        Broken{"plan-adopted",
               R"({"rounds":["2026-02-30"],"enclosures":[],"rooms":[],"change_substrate":false,)"
               R"("keep_damp":false,"strength_mg_per_l":0.0})",
               "rounds", "no such day"}));

TEST(FactJson, whatever_the_bytes_decoding_never_throws) {
    EXPECT_TRUE(rc::check("a damaged body is an error or a fact", [] {
        const FactText text = encode(any_fact(*rc::gen::inRange<std::size_t>(0, kinds_of_fact))).value();
        std::string body = text.body;
        const auto at = *rc::gen::inRange<std::size_t>(0, body.size());
        body[at] = *rc::gen::arbitrary<char>();
        const auto read = decode(5, text.kind, body);
        if (!read) RC_ASSERT(read.error().kind == ErrorKind::damaged);
    }));
}

}  // namespace
}  // namespace mitefall::store
