#include "mixing/label.h"

#include <gtest/gtest.h>

namespace mitefall::mixing {
namespace {

LabelLine line(const std::string& text) { return read_label_line(text).value(); }
double mg_per_l(const LabelLine& one) { return units::in_milligrams_per_litre(one.strength.value()); }

// 1 % w/v is 1 g in 100 mL: 10 mg/mL, 10,000 mg/L.
TEST(Label, a_line_is_read_in_the_ways_labels_write_it) {
    for (const char* const text :
         {"ivermectin 10 mg/mL", "ivermectin: 10 mg/ml", "ivermectin (1 % w/v)", "ivermectin 1% w/v",
          "1 % w/v ivermectin", "10mg/mL ivermectin", "  ivermectin  10 g/L "}) {
        EXPECT_EQ(line(text).name, "ivermectin") << text;
        EXPECT_DOUBLE_EQ(mg_per_l(line(text)), 10000) << text;
        EXPECT_FALSE(line(text).is_bare_percent) << text;
    }
}

TEST(Label, a_number_in_a_name_is_no_strength) {
    EXPECT_EQ(line("polysorbate 80").name, "polysorbate 80");
    EXPECT_EQ(line("polysorbate 80 0.1 % w/v").name, "polysorbate 80");
    EXPECT_DOUBLE_EQ(mg_per_l(line("polysorbate 80 0.1 % w/v")), 1000);
    EXPECT_EQ(line("2-propanol 70 % v/v").name, "2-propanol");
    EXPECT_EQ(line("1,4-dichlorobenzene 99 %").name, "1,4-dichlorobenzene");
    EXPECT_EQ(line("permethrin").amount, "");
}

TEST(Label, what_makes_no_mg_in_a_volume_is_kept_as_written) {
    EXPECT_TRUE(line("permethrin 0.5 %").is_bare_percent);
    EXPECT_DOUBLE_EQ(mg_per_l(line("permethrin 0.5 %")), 5000);
    EXPECT_EQ(line("ivermectin 18.7 mg/g").amount, "18.7 mg/g");
    EXPECT_FALSE(line("ivermectin 18.7 mg/g").strength);
    EXPECT_FALSE(line("ethanol 70 % v/v").strength);
    EXPECT_FALSE(line("ivermectin 10 mg").strength);
}

// "0,5 %" must never be read as 5 %.
TEST(Label, what_cannot_be_understood_is_refused) {
    for (const char* const text :
         {"permethrin 0,5 %", "", "   ", "10 mg/mL", "permethrin 120 %", "permethrin 0 %"})
        EXPECT_FALSE(read_label_line(text)) << text;
}

}  // namespace
}  // namespace mitefall::mixing
