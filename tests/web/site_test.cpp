#include "web/web_site.h"

#include "web/assets.h"
#include "web/packing.h"
#include "web/work.h"

// What is written is written once or not at all; what is asked is answered as it was meant.
namespace mitefall::web {
namespace {

TEST_F(WebSite, answers_as_the_schemas_say) {
    EXPECT_EQ(get("/api/status", "web-status")["version"], "1.2.3");
    const Json situation = get("/api/situation", "web-situation");
    EXPECT_EQ(situation["rooms"].size(), 3U);
    EXPECT_TRUE(situation["clear"].is_null());
    get("/api/collection", "collection");
    get("/api/journal", "journal");
    get("/api/exposure", "exposure");
    get("/api/evidence", "evidence");
    get("/api/batches", "batches");
    EXPECT_TRUE(get("/api/worklist", "worklist")["tasks"].empty());
    EXPECT_EQ(get("/api/taxa?like=ball", "web-taxa")["taxa"][0]["scientific"], "Python regius");
    EXPECT_TRUE(get("/api/taxa?like=", "web-taxa")["taxa"].empty());
    const Json corn = get("/api/taxa?like=corn", "web-taxa");
    EXPECT_EQ(corn["meaning"]["how"], "trade-name");
    EXPECT_EQ(corn["meaning"]["kinds"][0]["name"], "corn snake");
    EXPECT_EQ(corn["taxa"][0]["scientific"], "Pantherophis guttatus");
    const Json king = get("/api/taxa?like=king", "web-taxa");
    EXPECT_EQ(king["meaning"]["how"], "several");
    EXPECT_GT(king["meaning"]["kinds"].size(), 2U);
    EXPECT_EQ(get("/api/taxa?like=boa", "web-taxa")["meaning"]["kinds"].back()["unidentified"], true);
    EXPECT_EQ(get("/api/taxa?like=xqzzvwk", "web-taxa")["meaning"]["how"], "unknown");
    const Json mix = get("/api/mix?batch=1+L&target=10+mg/L&stock_is=plain", "mix");
    EXPECT_EQ(mix["recipe"]["stock_ml"], 1.0) << "10 g/L to 10 mg/L: 1 in 1,000";
    EXPECT_FALSE(mix["animals"].empty());
    EXPECT_EQ(get("/api/mix?batch=32+US+fl+oz&made_with=8+US+tsp&stock=0.5+%25+w/v",
                  "mix")["recipe"]["strength_mg_per_l"]
                  .get<double>(),
              5000 * 8.0 / 6 / 32)  // 6 US tsp to the US fl oz (NIST Handbook 44, appendix C)
    ;
    EXPECT_EQ(get("/api/mix?batch=1+L&target=10+mg/L&stock_is=plain&stock=1+%25", "error", 400)["where"],
              "stock")
        << "a bare % is asked about";
    EXPECT_EQ(get("/api/mix?batch=1+L", "error", 400)["kind"], "invalid-input");
    EXPECT_EQ(get("/api/mix?batch=1+L&target=10+mg/L", "error", 400)["where"], "stock_is");
    EXPECT_EQ(get("/api/mix?batch=1+L&target=10+mg/L&stock_is=pour-on", "error", 403)["kind"], "refused");
    EXPECT_EQ(get("/api/nothing", "error", 404)["kind"], "not-found");
    EXPECT_EQ(send("POST", "/api/journal", "{}").status, 405) << "reading is not writing";
}

TEST_F(WebSite, rulings_are_the_verdicts_without_their_reasons) {
    const Json rulings = get("/api/rulings", "web-rulings");
    const Json agatha = get("/api/verdicts?animal=agatha", "verdicts");
    for (const Json& animal : rulings["animals"]) {
        ASSERT_EQ(animal["rulings"].size(), rulings["methods"].size());
        if (animal["animal"] != "agatha") continue;
        for (std::size_t m = 0; m < rulings["methods"].size(); ++m) {
            EXPECT_EQ(agatha["verdicts"][m]["method"], rulings["methods"][m]);
            EXPECT_EQ(agatha["verdicts"][m]["ruling"], animal["rulings"][m]["ruling"]);
        }
    }
    EXPECT_EQ(agatha["verdicts"][0]["ruling"], "never") << "ivermectin kills chelonians";
    get("/api/verdicts?animal=nobody", "error", 404);
    EXPECT_EQ(get("/api/rulings?strength=strong", "error", 400)["where"], "strength");
}

TEST_F(WebSite, records_all_or_nothing) {
    const auto before = last();
    const Json weight{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}};
    const Json nobody{{"kind", "weighed"}, {"body", {{"animal", "nobody"}, {"mass_g", 1600}}}};
    post("/api/record", {{"facts", {weight, nobody}}}, "error", 404);
    EXPECT_EQ(last(), before);
    EXPECT_TRUE(post("/api/record", {{"facts", {weight}}, {"dry_run", true}}, "recorded")["ids"].empty());
    EXPECT_EQ(last(), before) << "a rehearsal writes nothing";
    EXPECT_EQ(post("/api/record", {{"facts", {weight}}}, "recorded")["ids"], Json::array({before + 1}));
    const Json history = get("/api/history?animal=ada", "journal");
    EXPECT_EQ(history["entries"].back()["fact"]["mass_g"], 1600);
    post("/api/undo", Json::object(), "error", 400);
    post("/api/undo", {{"seen", before}}, "error", 409);
    EXPECT_EQ(post("/api/undo", {{"seen", before + 1}}, "recorded")["ids"], Json::array({before + 1}));
}

TEST_F(WebSite, bad_input_is_told_by_its_place) {
    const auto where = [&](const Json& fact) {
        return post("/api/record", {{"facts", {fact}}}, "error", 400)["where"].get<std::string>();
    };
    EXPECT_EQ(where({{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", "heavy"}}}}),
              "/facts/0/mass_g");
    EXPECT_EQ(where({{"kind", "weighed"}, {"body", {{"animal", "ada"}}}}), "/facts/0/mass_g");
    EXPECT_EQ(where({{"kind", "danced"}, {"body", Json::object()}}), "/facts/0/kind");
    EXPECT_EQ(where({{"kind", "weighed"}, {"day", "soon"}, {"body", {{"animal", "ada"}, {"mass_g", 1}}}}),
              "/facts/0/day");
    EXPECT_EQ(where({{"kind", "weighed"}, {"extra", 1}, {"body", {{"animal", "ada"}, {"mass_g", 1}}}}),
              "/facts/0/extra");
    for (const char* const body : {"", "{", "[]", "null", "{\"facts\":[]}", "{\"facts\":{}}",
                                   "{\"facts\":[1]}", "{\"facts\":[],\"facts\":[]}"}) {
        const Response response = send("POST", "/api/record", body);
        EXPECT_TRUE(response.status == 400 || response.status == 415) << body << response.body;
        EXPECT_EQ(formats::faults_of(response.body, "error"), "") << body;
    }
}

/// Weight in and out of force by number, as the undo of one screen does while another goes on.
TEST_F(WebSite, each_screen_takes_back_its_own) {
    const auto weigh = [&](const char* animal, double grams) {
        const Json fact{{"kind", "weighed"}, {"body", {{"animal", animal}, {"mass_g", grams}}}};
        return post("/api/record", {{"facts", {fact}}}, "recorded")["ids"];
    };
    const Json mine = weigh("ada", 1601);
    const Json theirs = weigh("bruno", 901);
    EXPECT_EQ(post("/api/withdraw", {{"entries", mine}, {"reason", "wrong animal"}}, "recorded")["ids"],
              mine);
    const auto collection = desk.ask([&](const service::Keeper& k) { return k.collection(today); }).value();
    EXPECT_EQ(collection.animals.at(records::AnimalId("bruno")).weight->entry,
              theirs[0].get<records::FactId>());
    EXPECT_NE(collection.animals.at(records::AnimalId("ada")).weight->entry, mine[0].get<records::FactId>());
    post("/api/withdraw", {{"entries", mine}, {"reason", ""}}, "error", 409);
    post("/api/withdraw", {{"entries", {99999}}, {"reason", ""}}, "error", 404);
    post("/api/withdraw", {{"entries", "all"}, {"reason", ""}}, "error", 400);
}

TEST_F(WebSite, the_whole_job_from_plan_to_ticks) {
    const Json job = job_done("plan", {{"only", {"a-05", "a-07"}}});
    ASSERT_EQ(job["state"], "done") << job["error"].dump();
    EXPECT_EQ(formats::faults_of(job["result"], "plan"), "");
    const std::string id = job["job"];
    post("/api/adopt", {{"job", id}, {"plan", "none"}}, "error", 404);
    post("/api/adopt", {{"job", "999"}, {"plan", "recommended"}}, "error", 404);
    get("/api/course", "error", 404);
    post("/api/adopt", {{"job", id}, {"plan", "recommended"}}, "recorded");
    const Json course = get("/api/course", "adopted-course");
    EXPECT_EQ(course["rounds"].size(), job["result"]["recommended"]["rounds"].size());
    for (std::size_t i = 0; i < course["rounds"].size(); ++i) {
        Json chosen = job["result"]["recommended"]["rounds"][i];
        Json adopted = course["rounds"][i];
        EXPECT_EQ(adopted["day"], chosen["day"]);
        for (std::size_t k = 0; k < chosen["treatments"].size(); ++k) {
            for (const char* const key : {"task", "method", "animals", "enclosure", "room"})
                EXPECT_EQ(adopted["treatments"][k][key], chosen["treatments"][k][key]);
        }
    }
    const Json list = get("/api/worklist", "worklist");
    std::string key;
    for (const Json& task : list["tasks"]) {
        if (task["kind"] == "treat") key = task["key"];
    }
    ASSERT_FALSE(key.empty());
    const auto before = last();
    const Json first = post("/api/tick", tap(key), "web-ticked");
    EXPECT_FALSE(first["already"]);
    const auto after = last();
    EXPECT_GT(after, before);
    const Json second = post("/api/tick", tap(key), "web-ticked");
    EXPECT_TRUE(second["already"]) << "two people, one task";
    EXPECT_EQ(second["entries"], first["entries"]) << "and which entries did it";
    EXPECT_EQ(last(), after) << "done once";
    const Json back =
        post("/api/take-back", {{"key", key}, {"entry", first["entries"].back()}}, "web-ticked");
    EXPECT_EQ(back["state"], "open");
    EXPECT_EQ(back["entries"], first["entries"]) << "all the tick wrote";
    Json pass = tap(key);
    pass["reason"] = "asleep";
    EXPECT_EQ(post("/api/skip", pass, "web-ticked")["state"], "skipped");
    EXPECT_EQ(post("/api/tick", tap(key), "error", 409)["kind"], "conflict") << "done is not skipped";
    EXPECT_GT(get("/api/situation", "web-situation")["due"], 0);
    get("/api/shopping?package=50+mL%3D18.90+EUR", "shopping");
}

TEST_F(WebSite, a_tick_that_waited_keeps_its_day) {
    const Json job = job_done("plan", {{"only", {"a-05"}}});
    post("/api/adopt", {{"job", job["job"]}, {"plan", "recommended"}}, "recorded");
    const Json list = get("/api/worklist", "worklist");
    std::string key;
    for (const Json& task : list["tasks"]) {
        if (task["kind"] == "treat" && task["state"] == "open") key = task["key"];
    }
    ASSERT_FALSE(key.empty());
    day = today + units::Days(1);
    const Json sent = post("/api/tick", tap(key), "web-ticked");
    const Json journal = get("/api/journal", "journal");
    for (const Json& entry : journal["entries"]) {
        if (entry["id"] == sent["entries"][0]) {
            EXPECT_EQ(entry["day"], "2026-03-10");
        }
    }
    EXPECT_EQ(post("/api/tick", tap(key, "2026-03-20"), "error", 400)["where"], "day");
    EXPECT_EQ(post("/api/tick", tap(key, "2025-03-10"), "error", 400)["where"], "day");
    post("/api/tick", tap("2026-03-11/nothing/x", "2026-03-11"), "error", 404);
}

TEST_F(WebSite, late_work_is_told_and_made_up) {
    const Json plan = job_done("plan", {{"only", {"a-05"}}});
    post("/api/adopt", {{"job", plan["job"]}, {"plan", "recommended"}}, "recorded");
    EXPECT_EQ(get("/api/worklist", "worklist")["late"], nullptr);
    day = today + units::Days(7);
    const Json list = get("/api/worklist", "worklist");
    ASSERT_FALSE(list["late"]["rounds"].empty());
    EXPECT_EQ(get("/api/situation", "web-situation")["late"], list["late"]);
    const Json job = job_done("late");
    ASSERT_EQ(job["state"], "done") << job["error"].dump();
    EXPECT_EQ(formats::faults_of(job["result"], "late"), "");
    const Json seen = list["entry"];
    EXPECT_EQ(post("/api/catch-up", {{"how", "soon"}, {"seen", seen}}, "error", 400)["where"], "how");
    const Json ids = post("/api/catch-up", {{"how", "today"}, {"seen", seen}}, "recorded")["ids"];
    EXPECT_EQ(get("/api/worklist", "worklist")["late"], nullptr);
    get("/api/journal", "journal");
    post("/api/catch-up", {{"how", "today"}, {"seen", seen}}, "error", 409);
    post("/api/withdraw", {{"entries", ids}, {"reason", "another day"}}, "recorded");
    EXPECT_EQ(get("/api/worklist", "worklist")["late"], list["late"]);
}

TEST_F(WebSite, a_check_is_answered) {
    const Json plan = job_done("plan", {{"only", {"a-05"}}});
    post("/api/adopt", {{"job", plan["job"]}, {"plan", "recommended"}}, "recorded");
    day = today + units::Days(7);
    const std::string key = units::format_day(day) + "/check/a-05";
    const auto answered = [&](const char* found, const char* where) {
        Json said = tap(key, units::format_day(day));
        said["found"] = found;
        said["where"] = where;
        return said;
    };
    const auto before = last();
    EXPECT_EQ(post("/api/tick", tap(key, units::format_day(day)), "error", 400)["where"], "found");
    EXPECT_EQ(post("/api/tick", answered("plenty", ""), "error", 400)["where"], "found");
    EXPECT_EQ(post("/api/tick", answered("2-10", ""), "error", 400)["where"], "where");
    EXPECT_EQ(post("/api/tick", answered("none", "on-paper"), "error", 400)["where"], "where");
    EXPECT_EQ(last(), before);
    EXPECT_EQ(post("/api/tick", answered("2-10", "on-hands"), "web-ticked")["state"], "done");
    EXPECT_EQ(get("/api/situation", "web-situation")["last_sighting"], units::format_day(day));
    post("/api/tick", answered("none", ""), "error", 409);
    get("/api/journal", "journal");
}

TEST_F(WebSite, answers_every_kind_of_question) {
    for (const char* const kind : {"clear", "next-check", "origin", "matters", "what-helps"}) {
        const Json job = job_done(kind);
        ASSERT_EQ(job["state"], "done") << kind << job["error"].dump();
        EXPECT_EQ(formats::faults_of(job["result"], kind), "");
    }
    const Json release = job_done("release", {{"animal", "otto"}});
    ASSERT_EQ(release["state"], "done") << release["error"].dump();
    EXPECT_EQ(formats::faults_of(release["result"], "release"), "");
    EXPECT_FALSE(get("/api/situation", "web-situation")["clear"].is_null()) << "as the last answer says";
    EXPECT_EQ(job_done("rescore")["error"]["kind"], "not-found") << "no plan yet";
    post("/api/jobs", {{"kind", "guess"}}, "error", 400);
    EXPECT_EQ(job_done("plan", {{"speed", 1}})["error"]["where"], "speed");
    EXPECT_EQ(job_done("plan", {{"days", {"someday"}}})["error"]["where"], "days");
    EXPECT_EQ(job_done("clear", {{"rounds", 2.5}})["error"]["where"], "rounds");
    EXPECT_EQ(job_done("course", {{"job", "999"}})["error"]["where"], "job");
    get("/api/jobs/999", "error", 404);
}

TEST_F(WebSite, a_plan_is_adopted_on_the_days_on_which_it_was_looked_at) {
    const Json plan = job_done("plan", {{"only", {"a-05"}}});
    const Json as_it_is = job_done("why-days", {{"job", plan["job"]}});
    ASSERT_EQ(as_it_is["state"], "done") << as_it_is["error"].dump();
    EXPECT_EQ(formats::faults_of(as_it_is["result"], "why-days"), "");
    EXPECT_NEAR(as_it_is["result"]["clear"]["mean"].get<double>(),
                plan["result"]["recommended"]["clear"]["mean"].get<double>(), 1e-9);
    Json days = as_it_is["result"]["rounds"];
    const auto last_day = units::parse_day(days.back().get<std::string>()).value();
    days.back() = units::format_day(last_day + units::Days(2));
    const Json moved = job_done("why-days", {{"job", plan["job"]}, {"rounds", days}});
    ASSERT_EQ(moved["state"], "done") << moved["error"].dump();
    EXPECT_EQ(moved["result"]["rounds"], days);
    EXPECT_EQ(job_done("why-days", {{"job", plan["job"]}, {"rounds", {"soon"}}})["error"]["where"], "rounds");
    EXPECT_EQ(job_done("why-days", {{"job", "999"}})["error"]["where"], "job");
    const Json procedure = job_done("procedure", {{"job", plan["job"]}});
    ASSERT_EQ(procedure["state"], "done") << procedure["error"].dump();
    EXPECT_EQ(formats::faults_of(procedure["result"], "procedure"), "");
    post("/api/adopt", {{"job", moved["job"]}, {"plan", "recommended"}}, "recorded");
    EXPECT_EQ(get("/api/collection", "collection")["plan"]["rounds"], days);
}

// What is worked out is kept as an answer about the journal it was asked of: what was seen since is no part
// of it, and what was asked a moment after a sighting knows of it.
TEST_F(WebSite, an_answer_is_about_the_journal_it_was_asked_of) {
    const Jobs none([](const Question&, const auto&) -> base::Result<Outcome> { return Outcome{}; },
                    [](const Job&) {});
    const auto work = [&](records::FactId entry) {
        const Question asked{"plan", {{"only", {"a-05", "b-01"}}}, entry, today};
        return work_off(asked, desk, none, {[](double) { return true; }}).value().result;
    };
    const auto before = desk.last_entry().value();
    const Json then = work(before);
    const Json seen{{"enclosure", "b-01"}, {"count", "more"}, {"where", "on-animal"}};
    post("/api/record", {{"facts", {{{"kind", "sighted"}, {"body", seen}}}}}, "recorded");
    EXPECT_EQ(work(before), then);
    EXPECT_NE(work(desk.last_entry().value()), then);
}

// A question of before midnight is answered for its day, whenever its turn comes: it is kept as that.
TEST_F(WebSite, an_answer_is_about_the_day_it_was_asked_on) {
    const Jobs none([](const Question&, const auto&) -> base::Result<Outcome> { return Outcome{}; },
                    [](const Job&) {});
    const auto work = [&](Day on) {
        const Question asked{"plan", {{"only", {"a-05", "b-01"}}}, last(), on};
        return work_off(asked, desk, none, {[](double) { return true; }}).value().result;
    };
    const Json then = work(today);
    day = today + units::Days(1);
    EXPECT_EQ(work(today), then);
    EXPECT_NE(work(day), then);
}

TEST_F(WebSite, readers_and_jobs_ask_the_same_situation) {
    get("/api/situation", "web-situation");
    ASSERT_EQ(job_done("plan", {{"only", {"a-05", "b-01"}}})["state"], "done");
    ASSERT_EQ(job_done("origin")["state"], "done");
    get("/api/exposure", "exposure");
    const auto asked = desk.situation().value();
    EXPECT_EQ(asked->made().folds, 1);
    EXPECT_EQ(asked->made().tracings, 1);
    EXPECT_EQ(asked->made().beliefs, 1) << "the draws are the same";
    EXPECT_EQ(desk.situation().value(), asked);
    const Json weight{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}};
    post("/api/record", {{"facts", {weight}}}, "recorded");
    EXPECT_NE(desk.situation().value(), asked);
}

TEST_F(WebSite, a_plan_asked_after_the_first_sighting_knows_of_it) {
    const Json sightings = get("/api/collection", "collection")["sightings"];
    for (const Json& sighting : sightings)
        post("/api/withdraw", {{"entries", {sighting["entry"]}}, {"reason", "not seen"}}, "recorded");
    EXPECT_EQ(job_done("plan")["error"]["kind"], "not-found");
    const Json seen{{"enclosure", "b-01"}, {"count", "1"}, {"where", "on-animal"}};
    post("/api/record", {{"facts", {{{"kind", "sighted"}, {"body", seen}}}}}, "recorded");
    EXPECT_EQ(job_done("plan", {{"only", {"b-01"}}})["error"], Json(nullptr));
}

TEST_F(WebSite, a_course_follows_a_plan_before_and_after_it_is_adopted) {
    const Json plan = job_done("plan", {{"only", {"a-05"}}});
    const Json before = job_done("course", {{"job", plan["job"]}, {"plan", "recommended"}});
    ASSERT_EQ(before["state"], "done") << before["error"].dump();
    EXPECT_EQ(formats::faults_of(before["result"], "web-course"), "");
    EXPECT_EQ(before["result"]["mites"].size(), 85U) << "today and 84 days";
    post("/api/adopt", {{"job", plan["job"]}, {"plan", "recommended"}}, "recorded");
    const Json after = job_done("course");
    ASSERT_EQ(after["state"], "done") << after["error"].dump();
    EXPECT_NEAR(after["result"]["clear"].back()["mean"].get<double>(),
                before["result"]["clear"].back()["mean"].get<double>(), 1e-6)
        << "the same course";
}

TEST_F(WebSite, what_each_round_buys_is_asked_of_a_plan_at_hand) {
    const Json plan = job_done("plan", {{"only", {"a-05"}}});
    EXPECT_TRUE(plan["result"]["ladder"].empty()) << "not worked out unless it is looked at";
    const Json each = job_done("each-round", {{"job", plan["job"]}, {"plan", "recommended"}});
    ASSERT_EQ(each["state"], "done") << each["error"].dump();
    EXPECT_EQ(formats::faults_of(each["result"], "web-each-round"), "");
    const Json& ladder = each["result"]["ladder"];
    ASSERT_EQ(ladder.size(), 8U);
    const Json& recommended = plan["result"]["recommended"];
    EXPECT_EQ(ladder[recommended["course"]["rounds"].get<std::size_t>() - 1]["clear"], recommended["clear"])
        << "as it is shown";
    EXPECT_EQ(job_done("each-round", {{"job", "99"}})["error"]["kind"], "not-found");
    EXPECT_EQ(job_done("each-round")["error"]["kind"], "not-found") << "of a plan of a finished job alone";
}

TEST_F(WebSite, a_batch_has_a_label_to_print) {
    post("/api/batch",
         {{"batch", "b-1"},
          {"batch_volume", "1 L"},
          {"target", "10 mg/L"},
          {"stock_is", "plain"},
          {"units", "us"}},
         "recorded");
    EXPECT_EQ(get("/api/batches", "batches")["batches"].size(), 1U);
    const Response label = send("GET", "/api/label?batch=b-1&paper=letter");
    EXPECT_EQ(label.status, 200);
    EXPECT_EQ(label.type, "text/html; charset=utf-8");
    const auto policies = find_all(label.headers, "Content-Security-Policy");
    ASSERT_EQ(policies.size(), 1U);
    EXPECT_EQ(policies[0].find("script-src"), std::string::npos) << "no script at all, by default-src 'none'";
    get("/api/label?batch=b-2", "error", 404);
    EXPECT_EQ(post("/api/batch",
                   {{"batch", "b-2"}, {"batch_volume", "1 L"}, {"target", "200 mg/L"}, {"stock_is", "plain"}},
                   "error", 403)["kind"],
              "refused")
        << "above everything published, and not acknowledged";
    post("/api/discard", {{"batch", "b-1"}, {"how", "pharmacy"}}, "recorded");
}

TEST_F(WebSite, a_copy_of_everything_opens_as_a_collection) {
    const Response copy = send("GET", "/api/backup");
    ASSERT_EQ(copy.status, 200);
    const auto path = at("copy").string();
    std::ofstream(path, std::ios::binary) << copy.body;
    const auto keeper = service::Keeper::open(path, knowledge());
    ASSERT_TRUE(keeper) << keeper.error().message();
    EXPECT_EQ(keeper->journal()->back().id, last());
}

TEST_F(WebSite, invites_only_from_this_machine) {
    EXPECT_TRUE(get("/api/status", "web-status")["sharing"]["pairing"].is_null());
    const Json on = post("/api/sharing", {{"on", true}}, "web-status")["sharing"];
    EXPECT_EQ(on["pairing"], "http://192.168.1.20:8640/#pair=" + pairing.code());
    EXPECT_NE(on["qr"].get<std::string>().find("<svg"), std::string::npos);
    const Response wrong = send("POST", "/api/pair", R"({"code":"wrong"})", Door::home);
    EXPECT_EQ(wrong.status, 403);
    const Response paired = send("POST", "/api/pair", Json{{"code", pairing.code()}}.dump(), Door::home);
    ASSERT_EQ(paired.status, 200);
    const std::string cookie = find(paired.headers, "Set-Cookie").value();
    EXPECT_NE(cookie.find("HttpOnly"), std::string::npos);
    EXPECT_NE(cookie.find("SameSite=Strict"), std::string::npos);
    const std::string token = cookie.substr(0, cookie.find(';'));
    const Response status = send("GET", "/api/status", "", Door::home, token);
    ASSERT_EQ(status.status, 200);
    const Json seen = Json::parse(status.body)["result"];
    EXPECT_EQ(seen["role"], "home");
    EXPECT_TRUE(seen["sharing"]["pairing"].is_null()) << "a telephone cannot invite another";
    EXPECT_EQ(send("POST", "/api/sharing", R"({"on":false})", Door::home, token).status, 403);
    for (int i = 0; i < 5; ++i)
        static_cast<void>(send("POST", "/api/pair", R"({"code":"wrong"})", Door::home));
    EXPECT_EQ(send("POST", "/api/pair", R"({"code":"wrong"})", Door::home).status, 429);
}

TEST_F(WebSite, paired_devices_are_listed_and_withdrawn_one_by_one) {
    post("/api/sharing", {{"on", true}}, "web-status");
    const auto pair = [&](const std::string& name) {
        const Response paired =
            send("POST", "/api/pair", Json{{"code", pairing.code()}, {"name", name}}.dump(), Door::home);
        const std::string cookie = find(paired.headers, "Set-Cookie").value();
        return cookie.substr(0, cookie.find(';'));
    };
    const std::string kitchen = pair("kitchen");
    const std::string stolen = pair("lost phone");
    const Json list = get("/api/devices", "web-devices")["devices"];
    ASSERT_EQ(list.size(), 2U);
    EXPECT_EQ(list[1]["name"], "lost phone");
    EXPECT_EQ(send("GET", "/api/devices", "", Door::home, stolen).status, 403) << "only this machine may";
    EXPECT_EQ(send("DELETE", "/api/devices/1", "", Door::home, stolen).status, 403);
    const std::string number = list[1]["device"];
    const Json left = checked(send("DELETE", "/api/devices/" + number), "web-devices", 200)["devices"];
    EXPECT_EQ(left.size(), 1U);
    EXPECT_EQ(send("GET", "/api/status", "", Door::home, stolen).status, 401);
    EXPECT_EQ(send("GET", "/api/status", "", Door::home, kitchen).status, 200);
    for (const char* const other : {"2", "x", "", "99999999999999999999", "-1"})
        checked(send("DELETE", std::string("/api/devices/") + other), "error", 404);
}

// JSON made to cost more than it weighs (RFC 8259 bounds nothing of it).
TEST_F(WebSite, takes_no_json_that_costs_more_than_it_weighs) {
    std::string wide = "{";
    for (int i = 0; i < 50'000; ++i) wide += "\"k" + std::to_string(i) + "\":1,";
    wide += "\"z\":1}";
    const std::string flat = "{\"facts\":[" + std::string(1'000'000, '[').replace(0, 1, "1");
    std::string many = "{\"facts\":[1";
    for (int i = 0; i < 200'000; ++i) many += ",1";
    many += "]}";
    const std::string long_key = "{\"" + std::string(1'000'000, 'k') + "\":1}";
    for (const std::string& body : {wide, flat, many, long_key}) {
        const Response answer = send("POST", "/api/record", body);
        EXPECT_EQ(answer.status, 400);
        EXPECT_EQ(formats::faults_of(answer.body, "error"), "");
        EXPECT_LT(answer.body.size(), 2'000U) << "what was sent does not come back";
    }
}

TEST_F(WebSite, a_code_of_megabytes_is_not_told_back) {
    const Response answer =
        send("POST", "/api/pair", Json{{"code", std::string(4'000'000, 'c')}}.dump(), Door::home);
    EXPECT_EQ(answer.status, 403);
    EXPECT_LT(answer.body.size(), 1'000U);
}

TEST_F(WebSite, a_copy_needs_no_folder_of_its_own) {
    const char* const before = std::getenv("TMPDIR");
    const std::string kept = before == nullptr ? "" : before;
    ::setenv("TMPDIR", at("nowhere").c_str(), 1);
    const Response answer = send("GET", "/api/backup");
    if (before == nullptr)
        ::unsetenv("TMPDIR");
    else
        ::setenv("TMPDIR", kept.c_str(), 1);
    EXPECT_EQ(answer.status, 200);
    EXPECT_TRUE(answer.body.starts_with("SQLite format 3"));
}

TEST_F(WebSite, what_is_thrown_is_answered_in_words_and_the_rest_stays) {
    angry = true;
    const Response answer = send("GET", "/api/status");
    const Json error = checked(answer, "error", 500);
    EXPECT_EQ(error["kind"], "system");
    EXPECT_EQ(answer.body.find("contract broken"), std::string::npos);
    EXPECT_TRUE(find(answer.headers, "Content-Security-Policy"));
    angry = false;
    get("/api/status", "web-status");
}

TEST_F(WebSite, serves_nothing_but_its_own_files) {
    for (const char* const path : {"/../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/assets/../../c",
                                   "//etc/passwd", "/index.html/..", "/.git/config"})
        EXPECT_EQ(send("GET", path).status, 404) << path;
}

TEST_F(WebSite, tells_every_screen_what_changed) {
    std::vector<std::string> heard;
    const auto ticket = hub.listen([&](const std::string& event) { heard.push_back(event); });
    const Json weight{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}};
    post("/api/record", {{"facts", {weight}}}, "recorded");
    const std::string expected = "event: journal\ndata: {\"entry\":" + std::to_string(last()) + "}\n\n";
    ASSERT_EQ(heard.size(), 1U);
    EXPECT_EQ(heard[0], expected);
    site.look_for_news();
    EXPECT_EQ(heard.size(), 1U) << "told once";
    auto another = service::Keeper::open(file(), knowledge()).value();
    ASSERT_TRUE(
        another.record({records::Weighed{records::AnimalId("ada"), units::grams(1599)}}, today, now()));
    site.look_for_news();
    EXPECT_EQ(heard.size(), 2U) << "whoever wrote it";
}

// A phone at the far end of the house loads it once.
TEST(Assets, weigh_less_than_200_kilobytes_packed) {
    std::size_t bytes = 0;
    for (const Asset& asset : assets()) bytes += gzipped(std::string(asset.bytes), Packing::small).size();
    EXPECT_GT(bytes, 10'000U) << "the pages are in the program";
    EXPECT_LT(bytes, 200'000U);
}

TEST_F(WebSite, a_departure_from_where_mites_were_seen_is_a_conflict_until_it_is_acknowledged) {
    const auto collection =
        desk.ask([](const service::Keeper& keeper) { return keeper.collection(today); }).value();
    const records::EnclosureId seen = collection.sightings.back().value.enclosure;
    const auto homes = collection.animals_in(seen);
    ASSERT_FALSE(homes.empty());
    const Json facts = Json::array(
        {{{"kind", "animal-left"}, {"body", {{"animal", homes.front()->id.text()}, {"reason", "sold"}}}}});
    const records::FactId before = last();
    const Json refused = post("/api/record", {{"facts", facts}}, "error", 409);
    EXPECT_EQ(refused["where"], "acknowledged");
    EXPECT_EQ(last(), before);
    const Json asked = post("/api/record", {{"facts", facts}, {"dry_run", true}}, "recorded");
    ASSERT_EQ(asked["asks"].size(), 1U);
    EXPECT_EQ(asked["asks"][0]["kind"], "departure");
    EXPECT_EQ(asked["asks"][0]["key"], refused["value"]);
    EXPECT_FALSE(asked["asks"][0]["tell"].empty());
    const Json tell = asked["asks"][0]["tell"];
    EXPECT_TRUE(std::any_of(tell.begin(), tell.end(), [](const Json& line) { return line["tag"] == "P"; }));
    const Json done =
        post("/api/record", {{"facts", facts}, {"acknowledged", {refused["value"]}}, {"reason", "they know"}},
             "recorded");
    EXPECT_EQ(done["ids"].size(), 1U);
    const Json left = get("/api/journal", "journal")["entries"].back()["fact"];
    EXPECT_EQ(left["knowing"], true);
    EXPECT_EQ(left["knowing_reason"], "they know");
}

TEST_F(WebSite, a_correction_asks_first_like_what_it_comes_to) {
    const auto collection =
        desk.ask([](const service::Keeper& keeper) { return keeper.collection(today); }).value();
    const auto homes = collection.animals_in(collection.sightings.back().value.enclosure);
    ASSERT_FALSE(homes.empty());
    const std::string animal = homes.front()->id.text();
    const Json weight{{"kind", "weighed"}, {"body", {{"animal", animal}, {"mass_g", 1600}}}};
    const Json weighed = post("/api/record", {{"facts", {weight}}}, "recorded");
    Json sale{{"entry", weighed["ids"][0]},
              {"kind", "animal-left"},
              {"body", {{"animal", animal}, {"reason", "sold"}}}};
    const records::FactId before = last();
    const Json refused = post("/api/correct", sale, "error", 409);
    EXPECT_EQ(refused["where"], "acknowledged");
    EXPECT_EQ(last(), before);
    Json tried = sale;
    tried["dry_run"] = true;
    const Json asked = post("/api/correct", tried, "recorded");
    ASSERT_EQ(asked["asks"].size(), 1U);
    EXPECT_EQ(asked["asks"][0]["key"], refused["value"]);
    EXPECT_EQ(last(), before);
    sale["acknowledged"] = {refused["value"]};
    EXPECT_EQ(post("/api/correct", sale, "recorded")["ids"].size(), 1U);
}

TEST_F(WebSite, a_withdrawal_without_a_reason_tells_what_it_was) {
    const Json weight{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}};
    const Json ids = post("/api/record", {{"facts", {weight}}}, "recorded")["ids"];
    post("/api/withdraw", {{"entries", ids}}, "recorded");
    const Json entry = get("/api/journal", "journal")["entries"].back();
    EXPECT_NE(entry["fact"]["reason"].get<std::string>().find("weighed Ada"), std::string::npos) << entry;
}

}  // namespace
}  // namespace mitefall::web
