# A sample is made, drawn, and the picture tells what share of it the form covers: an empty or a full picture fails.
execute_process(COMMAND ${PROGRAM} make ${SAMPLE} --into ${FOLDER}/out --quiet RESULT_VARIABLE made)
if(NOT made EQUAL 0)
  message(FATAL_ERROR "the sample was not made: ${made}")
endif()
execute_process(COMMAND ${DRAW} ${FOLDER}/out/market-beret/market-beret.stl ${FOLDER}/market-beret.png
  RESULT_VARIABLE drawn OUTPUT_VARIABLE share)
if(NOT drawn EQUAL 0)
  message(FATAL_ERROR "the picture was not drawn: ${drawn}")
endif()
string(STRIP "${share}" share)
if(share LESS 25 OR share GREATER 75)
  message(FATAL_ERROR "the form covers ${share} % of its picture")
endif()
