#include "branching/split.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace mitefall::branching {
namespace {

class Splitter {
  public:
    explicit Splitter(const Network& network)
        : network_(network), run_of_type_(network.type_count), is_chain_(network.runs.size()) {
        for (std::uint32_t r = 0; r < network.runs.size(); ++r) {
            const Run& run = network.runs[r];
            std::fill_n(run_of_type_.begin() + run.first, run.count, r);
            is_chain_[r] = run.exits.count == 0 && run.births.count == 0;
        }
        // Somebody who comes in at a later substage needs the value there at all times.
        for (const Exit& exit : network.exits) require_open(exit.target, exit.same_substage);
        for (const End& end : network.ends) require_open(end.target, false);
        for (const Birth& birth : network.births) require_open(birth.target, false);
    }

    Split split() {
        order_chains();
        add_cells();
        add_open_runs();
        for (const std::uint32_t r : order_) add_chain(r);
        return std::move(result_);
    }

  private:
    void require_open(TypeIndex target, bool any_substage) {
        const std::uint32_t run = run_of_type_[target];
        if (any_substage || target != network_.runs[run].first) is_chain_[run] = false;
    }

    /// Depth first; a run on a ring of chains is made open, which breaks the ring.
    void order_chains() {
        std::vector<Mark> marks(network_.runs.size(), Mark::unseen);
        for (std::uint32_t r = 0; r < network_.runs.size(); ++r) visit(r, marks);
        std::erase_if(order_, [&](std::uint32_t r) { return !is_chain_[r]; });
        bring_together();
    }

    /// Chains of one speed side by side, as far as each stays after those its end leads to: they share the
    /// weights of a step, which are then read once for all of them.
    void bring_together() {
        std::vector<std::uint32_t> depth(network_.runs.size());
        for (const std::uint32_t r : order_) {
            const Slice ends = network_.runs[r].ends;
            for (std::uint32_t e = ends.first; e < ends.first + ends.count; ++e) {
                const std::uint32_t next = run_of_type_[network_.ends[e].target];
                if (is_chain_[next]) depth[r] = std::max(depth[r], depth[next] + 1);
            }
        }
        const std::vector<std::uint32_t> speed = speeds();
        std::stable_sort(order_.begin(), order_.end(), [&](std::uint32_t a, std::uint32_t b) {
            return std::pair(depth[a], speed[a]) < std::pair(depth[b], speed[b]);
        });
    }

    /// Of each run, the first that is as fast at the start.
    [[nodiscard]] std::vector<std::uint32_t> speeds() const {
        std::vector<std::uint32_t> speed(network_.runs.size());
        std::map<std::tuple<std::uint32_t, Rates, Rates>, std::uint32_t> first;
        const auto& values = network_.values.front();
        for (const std::uint32_t r : order_) {
            const Run& run = network_.runs[r];
            speed[r] =
                first.try_emplace({run.count, values[run.advance].x, values[run.loss].x}, r).first->second;
        }
        return speed;
    }

    using Rates = decltype(Lanes::x);

    enum class Mark { unseen, on_path, done };

    void visit(std::uint32_t r, std::vector<Mark>& marks) {
        if (!is_chain_[r] || marks[r] == Mark::done) return;
        if (marks[r] == Mark::on_path) {
            is_chain_[r] = false;
            return;
        }
        marks[r] = Mark::on_path;
        const Slice ends = network_.runs[r].ends;
        for (std::uint32_t e = ends.first; e < ends.first + ends.count; ++e)
            visit(run_of_type_[network_.ends[e].target], marks);
        marks[r] = Mark::done;
        order_.push_back(r);
    }

    void add_cells() {
        result_.cell_of_type.assign(network_.type_count, no_type);
        for (std::uint32_t r = 0; r < network_.runs.size(); ++r) {
            if (is_chain_[r]) continue;
            for (std::uint32_t m = 0; m < network_.runs[r].count; ++m) add_cell(network_.runs[r].first + m);
        }
        result_.open.type_count = static_cast<std::uint32_t>(result_.type_of_cell.size());
        result_.type_of_cell.push_back(no_type);
        for (const std::uint32_t r : order_) add_cell(network_.runs[r].first);
    }

    void add_cell(TypeIndex type) {
        result_.cell_of_type[type] = static_cast<TypeIndex>(result_.type_of_cell.size());
        result_.type_of_cell.push_back(type);
    }

    void add_open_runs() {
        Network& open = result_.open;
        for (std::uint32_t r = 0; r < network_.runs.size(); ++r) {
            if (is_chain_[r]) continue;
            Run run = network_.runs[r];
            run.first = result_.cell_of_type[run.first];
            run.exits = copy(network_.exits, run.exits, open.exits);
            run.ends = copy(network_.ends, run.ends, open.ends);
            run.births = copy(network_.births, run.births, open.births);
            open.runs.push_back(run);
            result_.open_runs.push_back(r);
        }
    }

    void add_chain(std::uint32_t r) {
        const Run& run = network_.runs[r];
        result_.chains.push_back({run.first, run.count, r, result_.cell_of_type[run.first], run.advance,
                                  run.loss, copy(network_.ends, run.ends, result_.chain_ends)});
    }

    /// Copies the slice with its targets in cells.
    template <class T>
    Slice copy(const std::vector<T>& from, Slice slice, std::vector<T>& into) const {
        const Slice copied{static_cast<std::uint32_t>(into.size()), slice.count};
        for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
            into.push_back(from[i]);
            into.back().target = result_.cell_of_type[from[i].target];
        }
        return copied;
    }

    const Network& network_;
    std::vector<std::uint32_t> run_of_type_;
    std::vector<bool> is_chain_;
    std::vector<std::uint32_t> order_;
    Split result_;
};

}  // namespace

Split split(const Network& network) { return Splitter(network).split(); }

}  // namespace mitefall::branching
