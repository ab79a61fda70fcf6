// Keys of the layout in words, for those who never see the file.
#include "report/words/keys.hpp"

#include <gtest/gtest.h>

namespace fairlead::words {
namespace {

TEST(KeysInWords, KeysAndSectionsReadAsWords) {
  EXPECT_EQ(keys_in_words("the layout gives no limits.rest_shift"), "the layout gives no limit of rest shift");
  EXPECT_EQ(keys_in_words("its mbs needs limits.main_line_factor or limits.design_factor"),
            "its mbs needs limit of main line factor or limit of design factor");
  EXPECT_EQ(keys_in_words("no brake_trolley.wheelbase given"), "no brake trolley wheelbase given");
  EXPECT_EQ(keys_in_words("give a [backup_brake] that engages"), "give a backup brake that engages");
  EXPECT_EQ(keys_in_words("in place of design_factor."), "in place of design factor.");
}

TEST(KeysInWords, IdsNumbersAndFilesStayAsTheyAre) {
  for (const char* text : {"structure portal_left: 0.395 m", "layouts/larch_spur_spoiled.toml:22", "", "...", "a_b.c_d",
                           "[measured on the sheave]", "R1 of rest. limits"})
    EXPECT_EQ(keys_in_words(text), text);
}

}  // namespace
}  // namespace fairlead::words
