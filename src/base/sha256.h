// SPDX-License-Identifier: MIT
// SHA-256 in plain words and by the processor's own instructions, where it has them. Private to
// base.
#pragma once

#include <string>
#include <string_view>

namespace ovendays::base {

enum class ShaWay { kPlain, kByProcessor };

/// The quickest this build carries and this machine can run.
ShaWay quickest_sha_way();

/// The same digest either way. @param way kByProcessor only where quickest_sha_way() says so
std::string sha256_hex(std::string_view bytes, ShaWay way);
}  // namespace ovendays::base
