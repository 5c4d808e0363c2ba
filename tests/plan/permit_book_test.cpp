#include "plan/permit_book.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "plan/emptied.h"
#include "plan/planned.h"

// A book of permits by number against the safety check asked by name, each time anew.
namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Journal;
using records::Method;
using safety::Application;

/// Two sound snakes in one enclosure, a small one by itself.
Journal den() {
    Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    journal.add(records::day(1, 1), records::tub("a"));
    journal.add(records::day(1, 1), records::tub("b"));
    journal.add(records::day(1, 1), records::snake("anna", "a"));
    journal.add(records::day(1, 1), records::snake("bert", "a"));
    journal.add(records::day(1, 1), records::snake("carl", "b"));
    journal.add(records::day(3, 1), records::Weighed{AnimalId("anna"), units::grams(900)});
    journal.add(records::day(3, 1), records::Weighed{AnimalId("bert"), units::grams(700)});
    journal.add(records::day(3, 1), records::Weighed{AnimalId("carl"), units::grams(90)});
    return journal;
}

void expect_same(const safety::Permit& a, const safety::Permit& b, const std::string& where) {
    ASSERT_EQ(a.has_value(), b.has_value()) << where;
    if (a) {
        EXPECT_EQ(a->animals(), b->animals()) << where;
        EXPECT_EQ(a->enclosure(), b->enclosure()) << where;
        EXPECT_EQ(a->day(), b->day()) << where;
        EXPECT_EQ(a->method(), b->method()) << where;
    } else {
        EXPECT_EQ(a.error().reason.what, b.error().reason.what) << where;
        EXPECT_EQ(a.error().animal, b.error().animal) << where;
    }
}

/// By number as the book reads it, and by name as the safety check does.
struct ProposedTwice {
    ProposedTwice(PermitBook& with, std::string of)
        : book(with), what(std::move(of)), course(with.roster().animal_count()) {}
    void propose(const char* name, const Application& next) {
        const Proposed*& so_far = course[index_of(book.roster().number_of(AnimalId(name)))];
        so_far = book.after(so_far, next);
        by_name[AnimalId(name)].push_back(next);
        what += std::string(", then ") + name + " on " + units::format_day(next.day);
    }
    PermitBook& book;
    std::string what;
    ProposedCourse course;
    safety::CourseSoFar by_name;
};

void ask_both(const Planned& planned, PermitBook& book, const ProposedTwice& proposed) {
    const units::Strength strength = units::milligrams_per_litre(10);
    for (const Method method :
         {Method::spray_animal, Method::spray_bedding, Method::soak, Method::fresh_tub}) {
        for (const int later : {0, 3, 9, 30}) {
            const safety::Request request{method,
                                          safety::is_ivermectin_spray(method) ? strength : units::Strength{},
                                          planned_on + units::Days(later)};
            for (const char* const name : {"anna", "bert", "carl"}) {
                const AnimalId id(name);
                expect_same(book.animal(book.roster().number_of(id), request, proposed.course),
                            safety::permit(planned.with, id, request, proposed.by_name), proposed.what);
            }
            for (const char* const name : {"a", "b"}) {
                const EnclosureId id(name);
                expect_same(book.enclosure(book.roster().number_of(id), request, proposed.course),
                            safety::permit_enclosure(planned.with, id, request, proposed.by_name),
                            proposed.what);
            }
        }
    }
}

TEST(PermitBook, answers_as_the_safety_check_does_whatever_was_asked_before) {
    const Planned planned(den(), 8);
    PermitBook book(planned.with);
    const Application sprayed{Method::spray_animal, planned_on};
    const Application sprayed_later{Method::spray_animal, planned_on + units::Days(7)};
    const Application bedding{Method::spray_bedding, planned_on};
    std::vector<ProposedTwice> courses(5, ProposedTwice(book, "nothing"));
    courses[1].propose("anna", sprayed);
    courses[2].propose("bert", sprayed);
    courses[3].propose("anna", bedding);
    courses[3].propose("bert", bedding);
    courses[4].propose("anna", sprayed);
    courses[4].propose("anna", sprayed_later);
    courses[4].propose("bert", sprayed_later);
    for (int again = 0; again < 2; ++again) {
        for (const ProposedTwice& course : courses) ask_both(planned, book, course);
    }
}

TEST(PermitBook, knows_two_courses_of_the_same_applications_for_one) {
    const Planned planned(den(), 8);
    PermitBook book(planned.with);
    const Application first{Method::spray_animal, planned_on};
    const Application second{Method::spray_bedding, planned_on};
    const Proposed* const both = book.after(book.after(nullptr, first), second);
    EXPECT_EQ(both, book.after(book.after(nullptr, first), second));
    EXPECT_NE(both, book.after(book.after(nullptr, second), first));
    const std::vector<Application> told = applications_of(both);
    ASSERT_EQ(told.size(), 2U);
    EXPECT_EQ(told[0].method, first.method);
    EXPECT_EQ(told[1].method, second.method);
}

}  // namespace
}  // namespace mitefall::plan
