#include "record/store/sha256.h"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>
#include <cstdint>

namespace tonemend {

std::string sha256(std::span<const std::byte> bytes) {
    sha256_ctx context;
    sha256_init(&context);
    sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&context, digest.size(), digest.data());
    return fmt::format("{:02x}", fmt::join(digest, ""));
}

std::string sha256(const std::string& text) {
    return sha256(std::as_bytes(std::span(text)));
}

bool is_sha256(const std::string& text) {
    return text.size() == std::size_t{2} * SHA256_DIGEST_SIZE &&
           text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

}  // namespace tonemend
