# cmake -D FOLDER=... -D SOURCE=... -P fill_folder.cmake: puts plugin.toml and families/ of SOURCE
# beside the library in FOLDER, and the sums of all files there into plugin.sha256, as `sha256sum`
# would write them.
file(COPY ${SOURCE}/plugin.toml DESTINATION ${FOLDER})
file(REMOVE_RECURSE ${FOLDER}/families)
file(GLOB families ${SOURCE}/families/*.toml)
if(families)
  file(COPY ${families} DESTINATION ${FOLDER}/families)
endif()

file(REMOVE ${FOLDER}/plugin.sha256)
file(GLOB_RECURSE files RELATIVE ${FOLDER} ${FOLDER}/*)
set(lines "")
foreach(file ${files})
  if(NOT file MATCHES "(^|/)\\.")
    file(SHA256 ${FOLDER}/${file} sum)
    string(APPEND lines "${sum}  ${file}\n")
  endif()
endforeach()
file(WRITE ${FOLDER}/plugin.sha256 "${lines}")
