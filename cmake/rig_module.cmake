# Warnings and floating-point rules common to every target of the project. Designated initialisers leave
# fields at their defaults on purpose, hence -Wno-missing-field-initializers.
function(rig_compile_options target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_compile_options(${target} PRIVATE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion
    -Wold-style-cast
    -Wno-missing-field-initializers -ffp-contract=off)
endfunction()

# Most tests, and the programs that they run, take longer to optimise than to run; what they test is optimised in full.
function(rig_test_options target)
  target_compile_options(${target} PRIVATE -O0 ${RIG_REST_OPTIONS} ${RIG_TEST_OPTIONS}
                                           "SHELL:-Xclang -fno-pch-timestamp")
endfunction()

# What tests read of others' libraries, read once for all that are not HOT.
function(rig_test_headers)
  if(TARGET rig_test_headers)
    return()
  endif()
  file(CONFIGURE OUTPUT rig_test_headers.cc CONTENT "")
  add_library(rig_test_headers OBJECT ${CMAKE_CURRENT_BINARY_DIR}/rig_test_headers.cc)
  rig_compile_options(rig_test_headers)
  rig_test_options(rig_test_headers)
  target_link_libraries(rig_test_headers PRIVATE GTest::gtest Eigen3::Eigen fmt::fmt
                                                 nlohmann_json::nlohmann_json)
  target_precompile_headers(rig_test_headers PRIVATE <gtest/gtest.h> <rapidcheck/gtest.h> <Eigen/Dense>
                                                     <fmt/format.h> <nlohmann/json.hpp>)
endfunction()

# A test executable whose cases ctest runs one by one.
#   rig_test(NAME SOURCES a_test.cc ... LINK rig::x ...)
# One that is HOT runs longer in templates that the tests themselves make than it takes to optimise them.
function(rig_test name)
  cmake_parse_arguments(ARG "HOT" "" "SOURCES;LINK" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  rig_compile_options(${name})
  if(ARG_HOT)
    target_compile_options(${name} PRIVATE -O1)
  else()
    rig_test_options(${name})
    rig_test_headers()
    target_precompile_headers(${name} REUSE_FROM rig_test_headers)
  endif()
  target_link_libraries(${name} PRIVATE ${ARG_LINK} GTest::gtest_main ${RAPIDCHECK_LIBRARY})
  target_include_directories(${name} PRIVATE ${CMAKE_SOURCE_DIR})
  target_compile_definitions(${name} PRIVATE RIG_SOURCE_DIR="${CMAKE_SOURCE_DIR}"
                                             RIG_RANDOM_CASES=${RIG_RANDOM_CASES})
  add_test(NAME ${name} COMMAND ${name})
  # Random inputs start from this seed, which RapidCheck prints. Two builds may be tested at a time.
  set_tests_properties(
    ${name} PROPERTIES ENVIRONMENT
    "RC_PARAMS=seed=1 max_success=${RIG_RANDOM_CASES};TEST_TMPDIR=${CMAKE_CURRENT_BINARY_DIR}")
endfunction()

# One module: a static library rig_NAME with alias rig::NAME, and NAME_test beside it.
#   rig_module(frame SOURCES a.cc HEADERS a.h DEPENDS rig::base TESTS a_test.cc)
# HEADERS form a file set whose members are each compiled alone (VERIFY_INTERFACE_HEADER_SETS). A module
# that is HOT spends its time in loops of its own: it is optimised for them, and RIG_REST_OPTIONS are not for it. One
# that is LEAN is long and has no such loops: RIG_LEAN_OPTIONS let it be compiled in less time. One that is COLD waits
# more than it computes.
function(rig_module name)
  cmake_parse_arguments(ARG "HOT;LEAN;COLD" "" "SOURCES;HEADERS;DEPENDS;TESTS;TEST_DEPENDS" ${ARGN})
  if(ARG_SOURCES)
    add_library(rig_${name} STATIC ${ARG_SOURCES})
    target_link_libraries(rig_${name} PUBLIC ${ARG_DEPENDS})
    target_sources(rig_${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${CMAKE_SOURCE_DIR}/src
                                      FILES ${ARG_HEADERS})
    rig_compile_options(rig_${name})
    if(ARG_HOT)
      target_compile_options(rig_${name} PRIVATE $<$<CONFIG:Release>:-O3>)
    else()
      target_compile_options(rig_${name} PRIVATE ${RIG_REST_OPTIONS})
    endif()
    if(ARG_LEAN)
      target_compile_options(rig_${name} PRIVATE ${RIG_LEAN_OPTIONS})
    endif()
    if(ARG_COLD)
      target_compile_options(rig_${name} PRIVATE ${RIG_COLD_OPTIONS})
    endif()
    set_target_properties(rig_${name} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ${RIG_TESTS})
  else()
    add_library(rig_${name} INTERFACE)
    target_link_libraries(rig_${name} INTERFACE ${ARG_DEPENDS})
    target_include_directories(rig_${name} INTERFACE ${CMAKE_SOURCE_DIR}/src)
    target_compile_features(rig_${name} INTERFACE cxx_std_20)
  endif()
  add_library(rig::${name} ALIAS rig_${name})
  if(RIG_TESTS AND ARG_TESTS)
    rig_test(${name}_test SOURCES ${ARG_TESTS} LINK rig::${name} ${ARG_TEST_DEPENDS})
  endif()
endfunction()

# A libFuzzer target NAME from NAME.cc; as a test it goes on a little from the files in SEEDS, if given.
function(rig_fuzz name)
  cmake_parse_arguments(ARG "" "SEEDS" "LINK" ${ARGN})
  add_executable(${name} ${name}.cc)
  rig_compile_options(${name})
  target_link_libraries(${name} PRIVATE ${ARG_LINK})
  target_compile_options(${name} PRIVATE -fsanitize=fuzzer-no-link)
  target_link_options(${name} PRIVATE -fsanitize=fuzzer)
  set(corpus ${CMAKE_CURRENT_BINARY_DIR}/${name}_corpus)
  file(MAKE_DIRECTORY ${corpus})
  add_test(NAME ${name} COMMAND ${name} -runs=2000 -seed=1 -max_len=4096 ${corpus} ${ARG_SEEDS})
endfunction()
