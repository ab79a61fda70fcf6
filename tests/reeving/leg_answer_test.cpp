// What a leg's answers in bands must hold: the exact answers of legs met at both ends, contacts following.
#include "geometry/reeving/leg_answer.hpp"

#include <gtest/gtest.h>

#include <random>

#include "geometry/reeving/contact.hpp"

namespace fairlead::reeving {
namespace {
}
}
