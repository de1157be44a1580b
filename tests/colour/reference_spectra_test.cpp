#include "calibrate/model/reference_spectra.h"

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// An environment variable set for a scope.
class Setting {
  public:
    Setting(const char* name, const std::string& value) : name_(name) {
        if (const char* before = std::getenv(name)) {
            before_ = before;
            had_ = true;
        }
        setenv(name, value.c_str(), 1);
    }
    Setting(const Setting&) = delete;
    Setting& operator=(const Setting&) = delete;
    ~Setting() { had_ ? setenv(name_, before_.c_str(), 1) : unsetenv(name_); }

  private:
    const char* name_;
    std::string before_;
    bool had_ = false;
};

class Scratch {
  public:
    Scratch()
        : path_(std::filesystem::temp_directory_path() / ("tonemend-spectra-" + std::to_string(getpid()))) {
        std::filesystem::create_directories(path_ / "colord" / "illuminant");
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() { std::filesystem::remove_all(path_); }

    std::string path() const { return path_.string(); }
    std::string data() const { return (path_ / "colord").string(); }
    void write_illuminant(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / "colord" / "illuminant" / (name + ".sp")) << text;
    }

  private:
    std::filesystem::path path_;
};

std::string three_values(const std::string& first, const std::string& bands = "3") {
    return "SPECT\nSPECTRAL_START_NM\t400\nSPECTRAL_END_NM\t420\nSPECTRAL_BANDS\t" + bands +
           "\nNUMBER_OF_FIELDS\t3\nNUMBER_OF_SETS\t1\nBEGIN_DATA_FORMAT\nSPEC_400\tSPEC_410\tSPEC_420\n"
           "END_DATA_FORMAT\nBEGIN_DATA\n" +
           first + "\t2.5\t-0.125\nEND_DATA\n";
}

std::string reason(const std::string& name) {
    try {
        read_illuminant(name);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("CIE tables are read with their grids and both end points") {
    const Observer observer = read_observer_1931();
    CHECK(observer.y.start_nm == 360);
    CHECK(observer.y.step_nm == 5);
    CHECK(observer.y.end_nm() == 830);
    // CIE 15:2018, table 4: the ends and the peak.
    CHECK(observer.x.values.front() == 0.0001299);
    CHECK(observer.y.values.front() == 0.000003917);
    CHECK(observer.z.values.front() == 0.0006061);
    CHECK(observer.x.values.back() == Approx(0.000001251141).epsilon(1e-6));
    CHECK(observer.y.at(555) == 1);

    const Spectrum a = read_illuminant("CIE-A");
    CHECK(a.start_nm == 300);
    CHECK(a.step_nm == 1);
    CHECK(a.end_nm() == 830);
    // CIE 15:2018, table 5: 0.930483 at 300 nm and 100 at 560 nm.
    CHECK(a.at(300) / a.at(560) == Approx(0.00930483).epsilon(1e-7));

    const auto samples = read_test_colour_samples();
    REQUIRE(samples.size() == 14);
    CHECK(samples[0].start_nm == 360);
    CHECK(samples[0].end_nm() == 830);
    CHECK(samples[0].at(380) == 0.22);  // CIE 13.3-1995, table 1: 0.219, here to two digits

    const DaylightComponents daylight = read_daylight_components();
    CHECK(daylight.S0.start_nm == 300);
    CHECK(daylight.S0.end_nm() == 830);
    CHECK(daylight.S0.at(560) == 100);
    CHECK(daylight.S1.at(560) == 0);
    CHECK(daylight.S2.at(560) == 0);
}

TEST_CASE("The folder of the CIE tables can be set, and is found through XDG_DATA_DIRS") {
    const Scratch scratch;
    scratch.write_illuminant("mine", three_values("1"));
    {
        const Setting folder("TONEMEND_COLORD_DATA", scratch.data());
        CHECK(read_illuminant("mine").values == std::vector<double>{1, 2.5, -0.125});
        CHECK(read_illuminant("mine").step_nm == 10);
    }
    const Setting unset("TONEMEND_COLORD_DATA", "");
    const Setting folders("XDG_DATA_DIRS", "/nowhere:" + scratch.path());
    CHECK(read_illuminant("mine").values.size() == 3);
    CHECK(read_illuminant("CIE-E").values.size() > 3);
}

TEST_CASE("A missing or damaged CIE table is one line that names the file and the package") {
    const Scratch scratch;
    const Setting folder("TONEMEND_COLORD_DATA", scratch.data());
    scratch.write_illuminant("empty", "");
    scratch.write_illuminant("noise",
                             "\x7f"
                             "ELF and no text\n\n{}}");
    scratch.write_illuminant("cut", three_values("1").substr(0, 150));
    scratch.write_illuminant("word", three_values("one"));
    scratch.write_illuminant("nan", three_values("nan"));
    scratch.write_illuminant("few", three_values("1", "4"));
    scratch.write_illuminant("none", three_values("1", "0"));
    scratch.write_illuminant("gridless",
                             "SPECT\nNUMBER_OF_FIELDS\t1\nNUMBER_OF_SETS\t1\nBEGIN_DATA_FORMAT\nSPEC_400\n"
                             "END_DATA_FORMAT\nBEGIN_DATA\n1\nEND_DATA\n");
    for (const char* name : {"absent", "empty", "noise", "cut", "word", "nan", "few", "none", "gridless"}) {
        const std::string text = reason(name);
        std::printf("  %s\n", text.c_str());
        INFO(name << ": " << text);
        CHECK(text.find(std::string(name) + ".sp") != std::string::npos);
        CHECK(text.find("install the package colord-data") != std::string::npos);
        CHECK(text.find('\n') == std::string::npos);
    }
    CHECK(reason("../cmf/CIE1931").find("not a name") != std::string::npos);
    CHECK(reason("").find("not a name") != std::string::npos);
}
