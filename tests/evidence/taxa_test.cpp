#include "evidence/taxa.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <set>

#include <algorithm>

#include "shared/tables.h"

namespace mitefall::evidence {
namespace {

using fixtures::taxa;

base::Result<Taxa> load(const std::string& text) {
    const std::vector<TableText> files{{"taxa.toml", text}};
    return Taxa::load(files);
}

void expect_groups(std::initializer_list<std::pair<const char*, TaxonGroup>> expected) {
    for (const auto& [name, group] : expected) {
        const auto found = taxa().find(name);
        ASSERT_TRUE(found) << name;
        EXPECT_EQ(found->group, group) << name;
    }
}

TEST(Taxa, forgives_case_spaces_and_hyphens) {
    for (const char* const text : {"Python regius", "python  REGIUS", "ball-python", "Ball Python",
                                   "ballpython", " royal python ", "royal_python"}) {
        const auto found = taxa().find(text);
        ASSERT_TRUE(found) << text;
        EXPECT_EQ(found->scientific, "Python regius") << text;
        EXPECT_EQ(found->group, TaxonGroup::snake);
        EXPECT_TRUE(found->no_fipronil);
    }
}

TEST(Taxa, never_decides_by_likeness) {
    for (const char* const text :
         {"bal python", "Python regus", "corn snak", "", " ", "-", "ball python pastel", "dragon"}) {
        EXPECT_FALSE(taxa().find(text)) << text;
    }
}

TEST(Taxa, suggests_what_may_be_meant) {
    EXPECT_EQ(taxa().suggest("bal pyton").front(), "ball python");
    EXPECT_EQ(taxa().suggest("Pantherophis gutatus").front(), "Pantherophis guttatus");
    const auto morph = taxa().suggest("ball python pastel");
    EXPECT_NE(std::find(morph.begin(), morph.end(), "ball python"), morph.end());
    EXPECT_TRUE(taxa().suggest("").empty());
    EXPECT_TRUE(taxa().suggest("xqzzvwk").empty());
    EXPECT_LE(taxa().suggest("snake").size(), 5U);
}

TEST(Taxa, a_dangerous_genus_is_known_whatever_species_follows) {
    EXPECT_EQ(taxa().find("Drymarchon sp.")->group, TaxonGroup::indigo_snake);
    EXPECT_EQ(taxa().find("Drymarchon kolpobasileus")->group, TaxonGroup::indigo_snake);
    EXPECT_EQ(taxa().find("Tiliqua nigrolutea")->group, TaxonGroup::skink);
    EXPECT_EQ(taxa().find("Testudo kleinmanni")->group, TaxonGroup::chelonian);
    EXPECT_FALSE(taxa().find("Python sp.")) << "only genera so marked";
}

TEST(Taxa, the_animals_the_rules_name_are_in_their_groups) {
    expect_groups({{"eastern indigo snake", TaxonGroup::indigo_snake},
                   {"Drymarchon corais", TaxonGroup::indigo_snake},
                   {"blue tongue skink", TaxonGroup::skink},
                   {"tortoise", TaxonGroup::chelonian},
                   {"red-eared slider", TaxonGroup::chelonian},
                   {"dwarf caiman", TaxonGroup::crocodilian},
                   {"leopard gecko", TaxonGroup::other_lizard},
                   {"dart frog", TaxonGroup::amphibian},
                   {"tarantula", TaxonGroup::invertebrate},
                   {"isopods", TaxonGroup::invertebrate},
                   {"goldfish", TaxonGroup::fish},
                   {"dog", TaxonGroup::dog},
                   {"collie", TaxonGroup::dog},
                   {"cat", TaxonGroup::cat},
                   {"parrot", TaxonGroup::bird},
                   {"feeder mouse", TaxonGroup::other_mammal},
                   {"corn snake", TaxonGroup::snake},
                   {"retic", TaxonGroup::snake}});
}

// Families after any herpetology handbook: vipers and elapids are venomous, and so are the named rear-fanged.
TEST(Taxa, venomous_genera_are_known_whatever_species_follows) {
    for (const char* const name :
         {"Crotalus viridis", "copperhead", "Vipera sp.", "Naja pallida", "boomslang", "king cobra",
          "puff adder", "Gila monster", "viper", "Micrurus tener", "false water cobra", "Baron's racer",
          "Montpellier snake", "Heterodon nasicus"}) {
        const auto found = taxa().find(name);
        ASSERT_TRUE(found) << name;
        EXPECT_TRUE(found->venomous) << name;
    }
    for (const char* const name : {"corn snake", "ball python", "copperhead rat snake"}) {
        ASSERT_TRUE(taxa().find(name)) << name;
        EXPECT_FALSE(taxa().find(name)->venomous) << name;
    }
}

// The groups a mistake would cost most: every species of these genera is a chelonian, crocodilian or skink.
TEST(Taxa, careful_groups_hold_for_whole_genera) {
    expect_groups({{"Cuora trifasciata", TaxonGroup::chelonian},
                   {"Mauremys rivulata", TaxonGroup::chelonian},
                   {"Pelusios sinuatus", TaxonGroup::chelonian},
                   {"Crocodylus acutus", TaxonGroup::crocodilian},
                   {"Egernia kingii", TaxonGroup::skink},
                   {"Trachylepis margaritifera", TaxonGroup::skink},
                   {"Mabuya mabouya", TaxonGroup::skink},
                   {"python", TaxonGroup::snake},
                   {"boa", TaxonGroup::snake}});
    EXPECT_TRUE(taxa().find("python")->unidentified);
}

TEST(Taxa, one_wrong_letter_is_asked_about_and_never_decided) {
    EXPECT_TRUE(rc::check([] {
        const auto& all = taxa().all();
        const Taxon& taxon = all[*rc::gen::inRange<std::size_t>(0, all.size())];
        std::string name = taxon.shown_name();
        RC_PRE(name.size() >= 5U && !taxon.whole_genus);
        name[*rc::gen::inRange<std::size_t>(0, name.size())] = '7';  // no name has a digit
        RC_ASSERT(!taxa().find(name) || taxa().find(name)->whole_genus);
        RC_ASSERT(!taxa().suggest(name).empty());
    }));
}

TEST(Taxa, a_snake_without_a_species_is_marked_unidentified) {
    EXPECT_TRUE(taxa().find("unlisted snake")->unidentified);
    EXPECT_FALSE(taxa().find("corn snake")->unidentified);
}

TEST(Taxa, two_hundred_snakes_and_every_name_finds_its_own_row) {
    std::ptrdiff_t snakes = 0;
    for (const Taxon& taxon : taxa().all()) {
        snakes += taxon.group == TaxonGroup::snake ? 1 : 0;
        for (const std::string& name : taxon.common)
            EXPECT_EQ(taxa().find(name)->scientific, taxon.scientific) << name;
        for (const std::string& name : taxon.synonyms)
            EXPECT_EQ(taxa().find(name)->scientific, taxon.scientific) << name;
        EXPECT_EQ(taxa().find(taxon.scientific)->scientific, taxon.scientific);
        EXPECT_FALSE(describe(taxon.group).empty());
    }
    EXPECT_GE(snakes, 200);
}

TEST(Taxa, broken_files_name_file_line_and_key) {
    const std::string good = "[[taxon]]\nscientific = \"Python regius\"\ngroup = \"snake\"\n";
    ASSERT_TRUE(load(good));
    const std::vector<std::pair<std::string, std::string>> broken{
        {"[[taxon]]\nscientific = \"Python regius\"\ngroup = \"snakes\"\n", "taxa.toml:3: group"},
        {"[[taxon]]\nscientific = \"Python regius\"\n", "taxa.toml:1: group"},
        {"[[taxon]]\ngroup = \"snake\"\n", "taxa.toml:1: scientific"},
        {"[[taxon]]\nscientific = \"--\"\ngroup = \"snake\"\n", "taxa.toml:2: scientific"},
        {good + "common = \"royal\"\n", "taxa.toml:4: common"},
        {good + "synonyms = [3]\n", "taxa.toml:4: synonyms"},
        {good + "flags = [\"poisonous\"]\n", "taxa.toml:4: flags"},
        {good + "colour = \"brown\"\n", "taxa.toml:4: colour"},
        {good + good, "taxa.toml:4: Python regius"},
        {good + "[[taxon]]\nscientific = \"Boa x\"\ngroup = \"snake\"\ncommon = [\"PYTHON-regius\"]\n",
         "taxa.toml:4: Boa x"},
        {"[taxon]\nscientific = \"Python regius\"\n", "taxa.toml:1: taxon"},
        {"[[species]]\nscientific = \"Python regius\"\n", "taxa.toml:1: species"},
        {"[[taxon]\n", "taxa.toml:1: "}};
    for (const auto& [text, place] : broken) {
        const auto loaded = load(text);
        ASSERT_FALSE(loaded) << text;
        EXPECT_EQ(loaded.error().where, place) << loaded.error().message();
        EXPECT_EQ(loaded.error().kind, base::ErrorKind::damaged);
    }
}

// What keepers write on tubs and in lists. Common practice; the kinds are those the names are short for.
TEST(Taxa, short_and_trade_names_of_one_kind_are_that_kind) {
    for (const auto& [name, scientific] :
         std::initializer_list<std::pair<const char*, const char*>>{{"ball", "Python regius"},
                                                                    {"Royal", "Python regius"},
                                                                    {"B.P.", "Python regius"},
                                                                    {"corn", "Pantherophis guttatus"},
                                                                    {"BCI", "Boa imperator"},
                                                                    {"cali king", "Lampropeltis californiae"},
                                                                    {"MBK", "Lampropeltis nigrita"},
                                                                    {"beardie", "Pogona vitticeps"}}) {
        const auto meaning = taxa().meaning(name);
        EXPECT_EQ(meaning.how, Understood::trade_name) << name;
        ASSERT_EQ(meaning.kinds.size(), 1U) << name;
        EXPECT_EQ(meaning.kinds[0]->scientific, scientific) << name;
        ASSERT_TRUE(taxa().find(name)) << name << ": records that hold the short name are understood too";
        EXPECT_EQ(taxa().find(name)->scientific, scientific);
    }
}

TEST(Taxa, a_name_of_several_kinds_is_asked_about_and_never_decided) {
    for (const char* const name :
         {"king", "milk", "rhino", "diamondback", "russian", "leopard", "dumerils"}) {
        const auto meaning = taxa().meaning(name);
        EXPECT_EQ(meaning.how, Understood::several) << name;
        EXPECT_GE(meaning.kinds.size(), 2U) << name;
        EXPECT_FALSE(taxa().find(name)) << name;
        const auto offered = taxa().suggest(name);
        ASSERT_FALSE(offered.empty()) << name;
        EXPECT_EQ(offered[0], taxa().plain_name(*meaning.kinds[0])) << name;
        EXPECT_EQ(taxa().search(name, 12)[0].taxon, meaning.kinds[0]) << name;
    }
    EXPECT_EQ(taxa().meaning("milk snake").how, Understood::several) << "a name of a row is asked about too";
    EXPECT_EQ(taxa().find("milk snake")->scientific, "Lampropeltis triangulum") << "older records still read";
    EXPECT_EQ(taxa().meaning("ball python").how, Understood::name);
    EXPECT_EQ(taxa().meaning("Drymarchon sp.").how, Understood::genus);
    EXPECT_EQ(taxa().meaning("corn pastel").how, Understood::unknown);
    EXPECT_TRUE(taxa().meaning("").kinds.empty());
}

TEST(Taxa, what_is_offered_means_one_kind_alone) {
    for (const Taxon& taxon : taxa().all()) {
        const auto meaning = taxa().meaning(taxa().plain_name(taxon));
        ASSERT_EQ(meaning.kinds.size(), 1U) << taxon.scientific;
        EXPECT_EQ(meaning.kinds[0]->scientific, taxon.scientific);
    }
}

/// No rule that holds for `other` is left out where the animal is taken for `row`.
void expect_as_strict(const Taxon& row, const Taxon& other, const std::string& name) {
    EXPECT_EQ(row.group, other.group) << name;
    EXPECT_TRUE(row.venomous || !other.venomous) << name << ", " << other.scientific;
    EXPECT_TRUE(row.very_long || !other.very_long) << name << ", " << other.scientific;
    EXPECT_TRUE(row.rainforest || !other.rainforest) << name << ", " << other.scientific;
    EXPECT_TRUE(row.unidentified || row.small_species || !other.small_species) << name;
    EXPECT_TRUE(row.unidentified || row.no_fipronil || !other.no_fipronil) << name;
}

// Who does not know which kind it is loses no rule by it: neither by the name as it is written nor by a
// group.
TEST(Taxa, a_name_of_several_kinds_is_never_read_as_the_harmless_one) {
    int both = 0;
    for (const char* const name :
         {"hognose", "milk snake", "boa", "kingsnake", "rat snake", "coral snake", "carpet python", "king",
          "diamondback", "anaconda", "sand boa", "rhino", "red tail boa", "rainbow boa", "green mamba"}) {
        const auto meaning = taxa().meaning(name);
        ASSERT_EQ(meaning.how, Understood::several) << name;
        const auto read_as = taxa().find(name);
        both += read_as ? 1 : 0;
        for (const Taxon* const kind : meaning.kinds) {
            if (read_as) expect_as_strict(*read_as, *kind, name);
            for (const Taxon* const group : meaning.kinds) {
                if (group->unidentified) expect_as_strict(*group, *kind, name);
            }
        }
    }
    EXPECT_GT(both, 5);
    EXPECT_TRUE(taxa().find("hognose")->venomous);
    for (const Taxon* const kind : taxa().meaning("king").kinds)
        EXPECT_FALSE(kind->unidentified) << "a snake nobody names is not one that may be a cobra";
}

TEST(Taxa, broken_trade_names_name_file_line_and_key) {
    const std::string rows =
        "[[taxon]]\nscientific = \"Boa a\"\ncommon = [\"a boa\"]\ngroup = \"snake\"\n"
        "[[taxon]]\nscientific = \"Boa b\"\ngroup = \"snake\"\nflags = [\"venomous\"]\n[[trade_name]]\n";
    ASSERT_TRUE(load(rows + "names = [\"bo\"]\nkinds = [\"Boa a\", \"Boa b\"]\n"));
    const std::vector<std::pair<std::string, std::string>> broken{
        {"names = [\"bo\"]\n", "taxa.toml:9: kinds"},
        {"kinds = [\"Boa a\"]\n", "taxa.toml:9: names"},
        {"names = [\"bo\"]\nkinds = [\"Boa c\"]\n", "taxa.toml:11: kinds"},
        {"names = [\"bo\"]\nkinds = [\"a boa\"]\n", "taxa.toml:11: kinds"},
        {"names = [\"bo\"]\nkinds = [\"Boa a\", \"Boa a\"]\n", "taxa.toml:11: kinds"},
        {"names = [\"bo\", \"BO\"]\nkinds = [\"Boa a\"]\n", "taxa.toml:10: names"},
        {"names = [\"a boa\"]\nkinds = [\"Boa a\"]\n", "taxa.toml:10: names"},
        {"names = [\"a boa\"]\nkinds = [\"Boa a\", \"Boa b\"]\n", "taxa.toml:10: names"},
        {"names = [\"bo\"]\nkinds = [\"Boa a\"]\nsize = 3\n", "taxa.toml:12: size"},
        {"names = [\"bo\"]\nkinds = [\"Boa b\", \"Boa c\"]\n[[taxon]]\nscientific = \"Boa c\"\ngroup = "
         "\"snake\"\n"
         "flags = [\"unidentified\"]\n",
         "taxa.toml:11: kinds"}};
    for (const auto& [text, place] : broken) {
        const auto loaded = load(rows + text);
        ASSERT_FALSE(loaded) << text;
        EXPECT_EQ(loaded.error().where, place) << loaded.error().message();
        EXPECT_EQ(loaded.error().kind, base::ErrorKind::damaged);
    }
}

TEST(Taxa, any_text_may_be_asked_for) {
    EXPECT_TRUE(rc::check([](const std::string& text) {
        const auto found = taxa().find(text);
        RC_ASSERT(!found || !found->scientific.empty());
        RC_ASSERT(taxa().suggest(text).size() <= 5U);
    }));
}

TEST(Taxa, a_search_finds_beginnings_then_parts_then_likenesses) {
    const auto balls = taxa().search("ball", 12);
    ASSERT_FALSE(balls.empty());
    EXPECT_EQ(balls[0].taxon->scientific, "Python regius");
    const auto regius = taxa().search("regius", 12);
    ASSERT_FALSE(regius.empty());
    EXPECT_EQ(regius[0].taxon->scientific, "Python regius") << "within a name";
    const auto misspelt = taxa().search("bal pyton", 12);
    ASSERT_FALSE(misspelt.empty());
    EXPECT_EQ(misspelt[0].taxon->scientific, "Python regius");
    EXPECT_TRUE(taxa().search("", 12).empty());
    EXPECT_TRUE(taxa().search(" - ", 12).empty());
    std::set<std::string> seen;
    const auto pythons = taxa().search("python", 12);
    EXPECT_EQ(pythons.size(), 12U);
    for (const auto& found : pythons) EXPECT_TRUE(seen.insert(found.taxon->scientific).second) << "each once";
}

}  // namespace
}  // namespace mitefall::evidence
