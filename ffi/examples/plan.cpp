// Plans a recipe file from C++ and prints what each layer gets: handles free themselves, problems are thrown.
#include <lamella.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace lamella {
template <auto Free> struct Freed {
    template <typename Handle> void operator()(Handle *handle) const { Free(handle); }
};
using Recipe = std::unique_ptr<lamella_recipe, Freed<lamella_recipe_free>>;
using Plan = std::unique_ptr<lamella_plan, Freed<lamella_plan_free>>;
using Report = std::unique_ptr<lamella_report, Freed<lamella_report_free>>;
using Text = std::unique_ptr<lamella_text, Freed<lamella_text_free>>;

inline std::string_view view(lamella_str text) { return {text.data, text.len}; }

inline void check(lamella_status status, lamella_report *problems = nullptr)
{
    const Report report(problems);
    if (status == LAMELLA_OK) return;
    lamella_text *text = nullptr;
    if (lamella_report_document(report.get(), &text) != LAMELLA_OK) throw std::runtime_error(lamella_status_text(status));
    const Text document(text);
    throw std::invalid_argument(std::string(lamella_text_data(text), lamella_text_len(text)));
}

inline Plan plan(std::string_view document)
{
    lamella_recipe *recipe = nullptr;
    lamella_plan *plan = nullptr;
    lamella_report *report = nullptr;
    auto status = lamella_recipe_read(document.data(), document.size(), nullptr, &recipe, &report);
    check(status, report);
    const Recipe owned(recipe);
    status = lamella_plan_of(recipe, &plan, &report);
    check(status, report);
    return Plan(plan);
}

inline std::string grams(lamella_mass mass)
{
    char buffer[32];
    check(lamella_decimal(mass, 1, buffer, sizeof buffer));
    return std::string(buffer) + " g";
}
} // namespace lamella

int main(int argc, char **argv)
{
    if (argc != 2) return 2;
    std::ifstream file(argv[1], std::ios::binary);
    const std::string document{std::istreambuf_iterator<char>(file), {}};
    try {
        const auto plan = lamella::plan(document);
        for (std::size_t index = 0; index < lamella_plan_layer_count(plan.get()); index++) {
            lamella_layer layer{};
            lamella_portion portion{};
            lamella::check(lamella_plan_layer(plan.get(), index, &layer, sizeof layer));
            lamella::check(lamella_plan_portion(plan.get(), index, &portion, sizeof portion));
            std::cout << lamella::view(layer.name) << ": pour " << lamella::grams(portion.mass) << ", from "
                      << lamella::grams(portion.before) << " to " << lamella::grams(portion.after) << '\n';
        }
    } catch (const std::invalid_argument &problems) {
        std::cerr << problems.what();
        return 1;
    }
}
