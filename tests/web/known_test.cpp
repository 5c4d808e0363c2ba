#include "web/known.h"

#include "web/web_site.h"
#include "web/wire.h"

// RFC 9110, 13.1.2 and 15.4.5: what the page has already is not sent again; what is another is.
namespace mitefall::web {
namespace {

/// Noll's own list of test vectors for FNV-1a of 64 bits: "", "a" and "foobar".
TEST(Fingerprint, is_that_of_its_authors) {
    EXPECT_EQ(fingerprint(""), 0xcbf29ce484222325U);
    EXPECT_EQ(fingerprint("a"), 0xaf63dc4c8601ec8cU);
    EXPECT_EQ(fingerprint("foobar"), 0x85944171f73967e8U);
}

class Known : public WebSite {
  protected:
    Response ask(const std::string& path, const std::string& tag, const std::string& method = "GET") {
        Request request{method, path, {}, {{"host", "127.0.0.1:1"}}, "", Door::local};
        if (!tag.empty()) request.headers.emplace_back("if-none-match", tag);
        return site.handle(request);
    }
    std::string tag_of(const std::string& path) { return find(ask(path, "").headers, "ETag").value_or(""); }
};

TEST_F(Known, is_not_sent_again_until_it_is_another) {
    const std::string tag = tag_of("/api/collection");
    ASSERT_NE(tag, "");
    const Response same = ask("/api/collection", tag);
    EXPECT_EQ(same.status, 304);
    EXPECT_EQ(same.body, "");
    EXPECT_EQ(find(same.headers, "ETag"), tag);
    EXPECT_EQ(find(same.headers, "Cache-Control"), "no-store")
        << "kept by the page that asked, and by none else";
    post("/api/record", {{"facts", {{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}}}}},
         "recorded");
    const Response other = ask("/api/collection", tag);
    EXPECT_EQ(other.status, 200);
    EXPECT_NE(other.body.find("1600"), std::string::npos);
    EXPECT_NE(find(other.headers, "ETag"), tag);
}

TEST_F(Known, another_answer_is_another_tag) {
    EXPECT_NE(tag_of("/api/collection"), tag_of("/api/journal"));
    EXPECT_EQ(ask("/api/journal", tag_of("/api/collection")).status, 200);
}

TEST_F(Known, a_refusal_has_no_tag) {
    EXPECT_EQ(tag_of("/api/nothing"), "");
    EXPECT_EQ(tag_of("/api/mix"), "") << "a batch without a volume";
}

/// Told a length, whoever asked would wait for a body that never comes; hung up on, ask anew for the next.
TEST(NotModified, goes_over_the_wire_without_a_body_and_the_connection_stays) {
    const Message message =
        as_message({304, {}, {}, {{"ETag", "W/\"1\""}}}, {"GET", "/api/journal", {}, {}, {}}, 11, true);
    EXPECT_EQ(message.count(boost::beast::http::field::content_length), 0U);
    EXPECT_EQ(message.count(boost::beast::http::field::content_type), 0U);
    EXPECT_TRUE(message.keep_alive());
    EXPECT_FALSE(message.need_eof());
}

}  // namespace
}  // namespace mitefall::web
