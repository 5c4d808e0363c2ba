#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace mitefall::store {

/// A folder of its own for each test, gone afterwards.
class Scratch : public ::testing::Test {
  protected:
    Scratch() {
        std::string name = (std::filesystem::temp_directory_path() / "mitefall-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
        folder_ = name;
    }
    ~Scratch() override {
        std::error_code ignored;
        std::filesystem::remove_all(folder_, ignored);
    }

    [[nodiscard]] std::filesystem::path at(const std::string& name) const { return folder_ / name; }

    static void write_bytes(const std::filesystem::path& path, const std::string& bytes) {
        std::ofstream(path, std::ios::binary) << bytes;
    }
    static std::string read_bytes(const std::filesystem::path& path) {
        std::string bytes(std::filesystem::file_size(path), '\0');
        std::ifstream(path, std::ios::binary).read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        return bytes;
    }

  private:
    std::filesystem::path folder_;
};

}  // namespace mitefall::store
