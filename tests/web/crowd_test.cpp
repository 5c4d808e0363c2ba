#include "web/crowd.h"

#include <gtest/gtest.h>

#include <vector>

namespace mitefall::web {
namespace {

CrowdLimits small_house() {
    CrowdLimits limits;
    limits.connections = 6;
    limits.of_one_address = 3;
    limits.bytes = 1000;
    limits.small_body = 10;
    return limits;
}

/// A crowd and who was sent off, in order.
struct House {
    Crowd crowd{small_house()};
    std::vector<std::string> sent_off;

    /// As a listener lets somebody in; nullopt: the door stays shut.
    std::optional<Crowd::Number> knock(const std::string& address) {
        const auto place = crowd.place_for(address);
        if (!place.is_free) return std::nullopt;
        if (place.goes) crowd.send_off(*place.goes);
        return crowd.enter(address, [this, address] { sent_off.push_back(address); });
    }
};

TEST(Crowd, one_address_takes_only_its_own_places) {
    House house;
    for (int i = 0; i < 50; ++i) EXPECT_TRUE(house.knock("10.0.0.66"));
    EXPECT_EQ(house.crowd.size(), 3U);
    EXPECT_EQ(house.sent_off.size(), 47U);
    EXPECT_TRUE(house.knock("10.0.0.7"));
    EXPECT_EQ(house.sent_off.size(), 47U) << "nobody had to go for the next address";
}

TEST(Crowd, where_all_places_are_taken_who_has_most_gives_way) {
    House house;
    const auto phone = house.knock("10.0.0.7");
    for (int i = 0; i < 3; ++i) EXPECT_TRUE(house.knock("10.0.0.66"));
    for (int i = 0; i < 2; ++i) EXPECT_TRUE(house.knock("10.0.0.67"));
    EXPECT_TRUE(house.knock("10.0.0.8"));
    EXPECT_EQ(house.sent_off, std::vector<std::string>{"10.0.0.66"});
    house.crowd.leave(*phone);
    EXPECT_EQ(house.crowd.size(), 5U);
}

TEST(Crowd, the_household_is_never_sent_off) {
    House house;
    for (int i = 0; i < 6; ++i) house.crowd.knows(*house.knock("10.0.0." + std::to_string(i)), true);
    EXPECT_FALSE(house.knock("10.0.0.66")) << "the house is full of its own";
    EXPECT_TRUE(house.sent_off.empty());
    House one;
    for (int i = 0; i < 3; ++i) one.crowd.knows(*one.knock("10.0.0.7"), true);
    EXPECT_FALSE(one.knock("10.0.0.7"));
}

TEST(Crowd, large_bodies_share_a_room_and_small_ones_need_none) {
    House house;
    const auto a = *house.knock("10.0.0.1");
    const auto b = *house.knock("10.0.0.2");
    EXPECT_TRUE(house.crowd.reserve(a, 900));
    EXPECT_FALSE(house.crowd.reserve(b, 101));
    EXPECT_TRUE(house.crowd.reserve(b, 10)) << "small";
    EXPECT_EQ(house.crowd.reserved(), 900U);
    house.crowd.release(a);
    EXPECT_TRUE(house.crowd.reserve(b, 1000));
    house.crowd.leave(b);
    EXPECT_EQ(house.crowd.reserved(), 0U) << "whoever goes takes nothing along";
    EXPECT_FALSE(house.crowd.reserve(a, 1001));
    EXPECT_FALSE(house.crowd.reserve(b, 1)) << "who is gone";
}

TEST(Crowd, one_neighbour_of_ipv6_has_a_network_of_addresses) {
    EXPECT_EQ(neighbour_of("192.168.1.20"), "192.168.1.20");
    EXPECT_EQ(neighbour_of("2001:db8:0:1:a::1"), neighbour_of("2001:db8:0:1:ffff::2"));
    EXPECT_NE(neighbour_of("2001:db8:0:1::1"), neighbour_of("2001:db8:0:2::1"));
    EXPECT_EQ(neighbour_of("fe80::1%lo"), "fe80::/64");
}

}  // namespace
}  // namespace mitefall::web
