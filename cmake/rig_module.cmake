# Warnings and floating-point rules common to every target of the project. Designated initialisers leave
# fields at their defaults on purpose, hence -Wno-missing-field-initializers.
function(rig_compile_options target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  target_compile_options(${target} PRIVATE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion
    -Wold-style-cast
    -Wno-missing-field-initializers -ffp-contract=off)
endfunction()

# A test executable whose cases ctest runs one by one.
#   rig_test(NAME SOURCES a_test.cc ... LINK rig::x ...)
# One that is HOT runs longer in templates that the tests themselves instantiate than it takes to optimise them.
function(rig_test name)
  cmake_parse_arguments(ARG "HOT" "" "SOURCES;LINK" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  rig_compile_options(${name})
  # Most tests take longer to optimise than to run; what they test is optimised in full.
  if(ARG_HOT)
    target_compile_options(${name} PRIVATE -O1)
  else()
    target_compile_options(${name} PRIVATE -O0 ${RIG_REST_OPTIONS} ${RIG_TEST_OPTIONS})
  endif()
  target_link_libraries(${name} PRIVATE ${ARG_LINK} GTest::gtest_main ${RAPIDCHECK_LIBRARY})
  target_include_directories(${name} PRIVATE ${CMAKE_SOURCE_DIR})
  target_compile_definitions(${name} PRIVATE RIG_SOURCE_DIR="${CMAKE_SOURCE_DIR}"
                                             RIG_RANDOM_CASES=${RIG_RANDOM_CASES})
  add_test(NAME ${name} COMMAND ${name})
  # Random inputs start from this seed, which RapidCheck prints.
  set_tests_properties(${name} PROPERTIES
                       ENVIRONMENT "RC_PARAMS=seed=1 max_success=${RIG_RANDOM_CASES}")
endfunction()

# One module: a static library rig_NAME with alias rig::NAME, and NAME_test beside it.
#   rig_module(frame SOURCES a.cc HEADERS a.h DEPENDS rig::base TESTS a_test.cc)
# HEADERS form a file set whose members are each compiled alone (VERIFY_INTERFACE_HEADER_SETS). A module
# that is HOT spends a user's time in loops of its own and is optimised for them, the others less, for the sake of build time. One
# that is COLD waits more than it computes.
function(rig_module name)
  cmake_parse_arguments(ARG "HOT;COLD" "" "SOURCES;HEADERS;DEPENDS;TESTS;TEST_DEPENDS" ${ARGN})
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
