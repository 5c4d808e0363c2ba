#include "formats/paper/batch_page.h"

#define ZX_USE_UTF8  // texts as std::string
#include <ZXing/BarcodeFormat.h>
#include <ZXing/ReadBarcode.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "formats/paper/qr_code.h"
#include "formats/text/bench.h"
#include "formats/text/layout.h"
#include "mixing/spoons.h"
#include "safety/rules.h"
#include "scene.h"

namespace mitefall::formats {
namespace {

/// Draws the code, four pixels to a module with its quiet zone, and has another library read it.
std::string read_back(const QrCode& code) {
    constexpr int scale = 4;
    constexpr int quiet = 4;
    const int side = (code.width + 2 * quiet) * scale;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 255);
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            const int row = y / scale - quiet;
            const int column = x / scale - quiet;
            const bool is_inside = row >= 0 && row < code.width && column >= 0 && column < code.width;
            if (is_inside && code.is_dark(row, column)) pixels[static_cast<std::size_t>(y * side + x)] = 0;
        }
    }
    const ZXing::ImageView image(pixels.data(), side, side, ZXing::ImageFormat::Lum);
    const auto result =
        ZXing::ReadBarcode(image, ZXing::DecodeHints().setFormats(ZXing::BarcodeFormat::QRCode));
    return result.isValid() ? result.text() : "unreadable";
}

TEST(QrCodes, another_reader_reads_what_was_written) {
    EXPECT_TRUE(rc::check([] {
        const auto text =
            *rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange<char>(' ', '~')));
        RC_ASSERT(read_back(qr_code(text).value()) == text);
    }));
}

TEST(QrCodes, refuse_what_does_not_fit) {
    EXPECT_FALSE(qr_code(""));
    EXPECT_FALSE(qr_code(std::string(3000, 'x')));  // ISO/IEC 18004: 2,331 bytes at version 40, level M
}

records::BatchOnRecord batch(double strength = 10, const std::string& steps = "1 x 1.00 mL") {
    records::BatchMade made;
    made.batch = records::BatchId("b-1");
    made.agent = "ivermectin";
    made.stock_strength = units::percent_mass_in_volume(1);
    made.stock = units::millilitres(1);
    made.total = units::litres(1);
    made.strength = units::milligrams_per_litre(strength);
    made.low = made.strength * 0.995;
    made.high = made.strength * 1.005;
    made.discard_by = day("2026-03-24");
    made.steps = steps;
    return {{day("2026-03-10"), 42, made}, std::nullopt};
}

std::string page_of(const records::BatchOnRecord& of, PaperSize paper = PaperSize::a4, int copies = 1) {
    const auto comparison = mixing::compare_strength(of.made.value.strength, tables());
    const std::vector<safety::Caution> cautions{
        {safety::says::keep_out.kind({{"", "<dark> & cool"}}), "", evidence::Tag::common_practice}};
    return batch_page({of, comparison, cautions, paper, copies, {}}).value();
}

bool holds(const std::string& page, const std::string& text) { return page.find(text) != std::string::npos; }

TEST(BatchPages, the_label_says_what_whoever_finds_the_bottle_must_know) {
    const std::string page = page_of(batch());
    for (const char* const text :
         {"ivermectin 10 mg/L", "Batch <b>b-1</b>", "Made 2026-03-10", "Use until 2026-03-24",
          "Shake before every use", "Never down the drain", "tortoises", "<svg"}) {
        EXPECT_TRUE(holds(page, text)) << text;
    }
    EXPECT_FALSE(holds(page, "CAUTION"));
    EXPECT_TRUE(holds(page_of(batch(200)), "20 times the strongest published spray"));
}

TEST(BatchPages, the_code_leads_to_the_entry_of_the_journal) {
    EXPECT_EQ(
        read_back(qr_code(batch_code_text(batch())).value()),
        "Mitefall batch b-1\nivermectin 10 mg/L\nmade 2026-03-10\nuse until 2026-03-24\njournal entry 42");
}

TEST(BatchPages, are_for_the_paper_at_hand_and_need_nothing_from_outside) {
    EXPECT_TRUE(holds(page_of(batch()), "size: A4 portrait"));
    EXPECT_TRUE(holds(page_of(batch(), PaperSize::letter), "size: letter portrait"));
    const std::string page = page_of(batch(), PaperSize::a4, 8);
    std::size_t labels = 0;
    for (std::size_t at = page.find("class=\"label\""); at != std::string::npos;
         at = page.find("class=\"label\"", at + 1)) {
        ++labels;
    }
    EXPECT_EQ(labels, 8U);
    for (const char* const text : {"href=", "src=", "url(", "@import", "<script"})
        EXPECT_FALSE(holds(page, text));
    const auto one = batch();
    const auto comparison = mixing::compare_strength(one.made.value.strength, tables());
    for (const int copies : {0, -1, 9})
        EXPECT_FALSE(batch_page({one, comparison, {}, PaperSize::a4, copies, {}}));
}

TEST(BatchPages, text_of_the_keeper_stays_text) {
    const std::string page = page_of(batch(10, "<script>\"&'"));
    EXPECT_TRUE(holds(page, "&lt;script&gt;&quot;&amp;&#39;"));
    EXPECT_TRUE(holds(page, "<li>&lt;dark&gt; &amp; cool: keep out"));
    EXPECT_FALSE(holds(page, "<script>"));
}

TEST(BenchText, amounts_have_the_figures_of_the_tool) {
    const auto spoon = [](const char* written) {
        return mixing::level_spoon(mixing::read_spoon(written).value(), tables());
    };
    const auto phrase = [](const mixing::Tool& tool, units::Volume amount, int times) {
        return measure_phrase({tool, amount, times});
    };
    const auto fine = mixing::graduated_tool("1 mL syringe", units::millilitres(1), units::millilitres(0.01));
    EXPECT_EQ(phrase(fine, units::millilitres(0.9), 1), "1 x 0.90 mL with the 1 mL syringe");
    const auto cup = mixing::graduated_tool("30 mL cup", units::millilitres(30), units::millilitres(1));
    EXPECT_EQ(phrase(cup, units::millilitres(19), 2), "2 x 19 mL with the 30 mL cup");
    EXPECT_EQ(phrase(spoon("1 US tsp"), units::us_teaspoons(1), 8), "8 level US teaspoons");
    EXPECT_EQ(phrase(spoon("1/2 US tsp"), units::us_teaspoons(0.5), 1), "1 level US half-teaspoon");
    EXPECT_EQ(phrase(spoon("1/4 US tsp"), units::us_teaspoons(0.25), 3), "3 level US quarter-teaspoons");
    EXPECT_EQ(phrase(spoon("2.5 mL"), units::millilitres(2.5), 2), "2 level 2.5 mL half-teaspoons");
    const auto jug = mixing::graduated_tool("jug", 8, 0.5, mixing::Marks::us_fluid_ounces);
    EXPECT_EQ(phrase(jug, units::us_fluid_ounces(2.5), 1), "1 x 2.5 US fl oz with the jug");
}

// A cup without marks between its top and nothing is no spoon: 2 x 30 mL are 60 mL, never "2 mL".
TEST(BenchText, a_cup_with_one_mark_is_told_with_what_it_holds) {
    const auto cup = mixing::graduated_tool("30 mL cup", units::millilitres(30), units::millilitres(30));
    EXPECT_EQ(measure_phrase({cup, units::millilitres(30), 2}), "2 x 30 mL with the 30 mL cup");
}

// 8 level teaspoons are 39.43 mL to a tenth: the error is 3.9 mL, so the last sure figure is the unit.
TEST(BenchText, volumes_show_no_figure_their_error_hides) {
    EXPECT_EQ(show_within(units::us_teaspoons(8), units::us_teaspoons(0.8)), "39 mL");
    EXPECT_EQ(show_within(units::us_teaspoons(40), units::us_teaspoons(4)), "200 mL");
    EXPECT_EQ(show_within(units::millilitres(0.9463), units::millilitres(0.005)), "0.946 mL");
}

// NIST SP 811: 8 US teaspoons are 39.43137275 mL, 32 US fluid ounces 946.352946 mL.
TEST(BenchText, unrounded_amounts_have_every_figure) {
    const mixing::Recipe recipe{units::us_teaspoons(8), units::us_fluid_ounces(32) - units::us_teaspoons(8),
                                units::us_fluid_ounces(32), units::milligrams_per_litre(208.333333)};
    EXPECT_EQ(unrounded_text(recipe),
              "Unrounded: 39.43137275 mL of stock and 906.92157325 mL of water make 946.352946 mL of "
              "208.333333 mg/L.\n");
}

// A level spoon is right to a tenth (evidence row spoon_error), so the record must not say 39.43 mL.
TEST(BatchPages, stock_measured_with_spoons_has_no_more_figures_than_spoons_have) {
    records::BatchOnRecord spooned = batch(208, "8 level US teaspoons");
    spooned.made.value.stock = units::us_teaspoons(8);
    spooned.made.value.low = spooned.made.value.strength * 0.9;
    spooned.made.value.high = spooned.made.value.strength * 1.1;
    const std::string page = page_of(spooned);
    EXPECT_TRUE(holds(page, "mg/mL, 39 mL<")) << page;
    EXPECT_FALSE(holds(page, "39.4"));
}

TEST(BenchText, the_picture_shows_where_the_mix_stands) {
    const auto picture = [](double mg_per_l) {
        const auto strength = units::milligrams_per_litre(mg_per_l);
        return lay_out(
            strength_picture({strength, strength, strength}, mixing::compare_strength(strength, tables())),
            {});
    };
    const auto place = [&](double mg_per_l) {
        const std::string text = picture(mg_per_l);
        const std::size_t line = text.find('\n') + 1;
        return text.find('*') - line - 2;
    };
    // log10 over three decades and 60 columns: 1 -> 0, 10 -> 20, 100 -> 40, 1000 -> 60.
    EXPECT_EQ(place(1), 0U);
    EXPECT_EQ(place(10), 20U);
    EXPECT_EQ(place(100), 40U);
    EXPECT_EQ(place(1000), 60U);
    EXPECT_EQ(place(1e6), 60U);
    EXPECT_EQ(place(0.1), 0U);
}

}  // namespace
}  // namespace mitefall::formats
