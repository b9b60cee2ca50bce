// One entry of each kind, from its table. Complaints go to the document; the value is then only
// good for going on reading. Every reader ends with done(), so that a misspelt key is an error.
#pragma once

#include "core/knowledge/scale.hpp"
#include "core/model/knowledge.hpp"
#include "core/table/reader.hpp"

namespace soot {

Cause read_cause(Reader entry, const Scale& scale);
Symptom read_symptom(Reader entry, const Scale& scale);
Quantity read_quantity(Reader entry);
Term read_term(Reader entry);
Check read_check(Reader entry);
Correction read_correction(Reader entry, const Scale& scale);
Procedure read_procedure(Reader entry);
Caution read_caution(Reader entry);
Gate read_gate(Reader entry);
Cover read_cover(Reader entry);
Tool read_tool(Reader entry);
Feature read_feature(Reader entry);
Synonyms read_synonyms(Reader entry);
Source read_citation(Reader entry);

}  // namespace soot
