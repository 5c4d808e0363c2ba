// large_file FILE ENCLOSURES one|two|thirteen|all: writes a large collection of a breeder as a collection
// file.
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

#include "shared/large_collection.h"
#include "store/collection_file.h"

namespace mitefall {
namespace {

base::Result<void> write(const std::string& path, const LargeCollection& large) {
    auto file = store::CollectionFile::create(path);
    if (!file) return base::fail(file.error());
    std::vector<store::NewEntry> entries;
    for (const records::Entry& entry : large.journal())
        entries.push_back({entry.day, entry.recorded_at, entry.fact, {}});
    const auto written = file->append_all(entries);
    if (!written) return base::fail(written.error());
    return {};
}

int run(const std::vector<std::string>& words) {
    const std::map<std::string, Climates> climates{{"one", Climates::one},
                                                   {"two", Climates::two},
                                                   {"thirteen", Climates::thirteen},
                                                   {"all", Climates::all}};
    if (words.size() != 3 || !climates.contains(words[2]) || std::atoi(words[1].c_str()) < 10) {
        fmt::print(stderr, "large_file FILE ENCLOSURES one|two|thirteen|all, with at least 10 enclosures\n");
        return 2;
    }
    const auto written = write(words[0], LargeCollection(std::atoi(words[1].c_str()), climates.at(words[2])));
    if (!written) fmt::print(stderr, "{} was not written\n", words[0]);
    return written ? 0 : 1;
}

}  // namespace
}  // namespace mitefall

int main(int count, char** words) { return mitefall::run({words + 1, words + count}); }
