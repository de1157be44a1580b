#include "calibrate/keep/encoding_json.h"

#include <glib.h>

#include <cmath>
#include <cstdint>
#include <memory>
#include <nlohmann/json.hpp>

#include "calibrate/keep/characterisation_json.h"
#include "picture/encoding_profile.h"
#include "picture/icc_decoding.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

struct FreeGlib {
    void operator()(void* memory) const { g_free(memory); }
};

std::string base64(const std::vector<std::uint8_t>& bytes) {
    const std::unique_ptr<gchar, FreeGlib> text(g_base64_encode(bytes.data(), bytes.size()));
    return text.get();
}

std::vector<std::uint8_t> bytes_of(const JsonPart& json) {
    gsize size = 0;
    const std::unique_ptr<guchar, FreeGlib> bytes(g_base64_decode(json.raw_text().c_str(), &size));
    constexpr gsize header = 128;
    if (size <= header) json.refuse("is no ICC profile");
    return {bytes.get(), bytes.get() + size};
}

ColourEncoding decoded(const JsonPart& profile) {
    try {
        return icc_encoding(bytes_of(profile), StoredChannels::three, "");
    } catch (const InputError& error) {
        profile.refuse(std::string("is damaged") + error.what());
    }
}

}  // namespace

nlohmann::ordered_json encoding_json(const ColourEncoding& encoding) {
    return {{"description", encoding.description},
            {"assumed", encoding.assumed},
            {"camera_native", encoding.camera_native},
            {"native_balance", encoding.native_balance},
            {"to_xyz_d50", matrix_json(encoding.to_xyz_d50)},
            {"profile", base64(encoding_profile(encoding))}};
}

ColourEncoding to_encoding(const JsonPart& json) {
    ColourEncoding encoding = decoded(json.at("profile"));
    encoding.description = json.at("description").text(200);
    encoding.assumed = json.at("assumed").flag();
    encoding.camera_native = json.at("camera_native").flag();
    encoding.native_balance = json.at("native_balance").numbers<3>(1e-3, 1e3);
    const JsonPart matrix = json.at("to_xyz_d50");
    encoding.to_xyz_d50 = to_matrix(matrix, 100);
    if (std::abs(determinant(encoding.to_xyz_d50)) < 1e-6) matrix.refuse("has its columns in line");
    return encoding;
}

}  // namespace tonemend
