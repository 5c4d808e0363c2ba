#include "web/packing.h"

#include <zlib.h>

#include "base/contract.h"

namespace mitefall::web {

std::string gzipped(const std::string& text, Packing packing) {
    constexpr int gzip_window = 15 + 16;  // zlib.h, deflateInit2
    constexpr int usual_memory = 8;
    z_stream stream{};
    const int level = packing == Packing::small ? Z_BEST_COMPRESSION : Z_BEST_SPEED;
    base::expects(
        deflateInit2(&stream, level, Z_DEFLATED, gzip_window, usual_memory, Z_DEFAULT_STRATEGY) == Z_OK,
        "zlib has memory");
    std::string packed(deflateBound(&stream, static_cast<uLong>(text.size())), '\0');
    std::string input = text;
    stream.next_in = reinterpret_cast<Bytef*>(input.data());
    stream.avail_in = static_cast<uInt>(input.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    const int done = deflate(&stream, Z_FINISH);
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    base::expects(done == Z_STREAM_END, "zlib finished");
    return packed;
}

}  // namespace mitefall::web
