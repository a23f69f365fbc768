# Completion of crownwright for fish. Installed as share/fish/vendor_completions.d/crownwright.fish.

function __crownwright_names
    crownwright profiles $argv[1] --json 2>/dev/null | sed -n 's/^      "name": "\(.*\)",$/\1/p'
end

complete -c crownwright -f
complete -c crownwright -n __fish_use_subcommand -a make -d 'Make the forms that order files ask for'
complete -c crownwright -n __fish_use_subcommand -a block -d 'Make a beret block from measurements'
complete -c crownwright -n __fish_use_subcommand -a pad -d 'Make a pressing pad from measurements'
complete -c crownwright -n __fish_use_subcommand -a draft -d 'Draft the pattern that sews up to a form'
complete -c crownwright -n __fish_use_subcommand -a check -d 'Prove a mesh file of any origin'
complete -c crownwright -n __fish_use_subcommand -a simulate -d 'Try milling programs on a map of the stock'
complete -c crownwright -n __fish_use_subcommand -a sizes -d 'Convert hat sizes and head girths'
complete -c crownwright -n __fish_use_subcommand -a profiles -d 'List crown shapes, cloths, materials and printers'
complete -c crownwright -n __fish_use_subcommand -a schema -d 'Print the JSON Schema of an order'
complete -c crownwright -n __fish_use_subcommand -l version -d 'Print the version'
complete -c crownwright -l help -s h -d 'Print help'

set -l reports '__fish_seen_subcommand_from make block pad draft check simulate sizes profiles'
complete -c crownwright -n $reports -l json -d 'Print JSON only'
complete -c crownwright -n $reports -l quiet -s q -d 'Print no report'
complete -c crownwright -n $reports -l color -x -a 'auto always never' -d 'Colour on standard output'

set -l makes '__fish_seen_subcommand_from make block pad draft'
complete -c crownwright -n $makes -l into -x -a '(__fish_complete_directories)' -d 'Folder for the forms'
complete -c crownwright -n $makes -l force -d 'Replace files that this order did not make'
complete -c crownwright -n '__fish_seen_subcommand_from make block pad draft profiles simulate' -l profiles -x -a '(__fish_complete_directories)' -d 'Folder of profiles'
complete -c crownwright -n '__fish_seen_subcommand_from make draft check simulate' -F
complete -c crownwright -n '__fish_seen_subcommand_from simulate' -l order -r -F -d 'That tells stock, tools and form'
complete -c crownwright -n '__fish_seen_subcommand_from simulate' -l setup -x -a 'one tier-1 tier-2 tier-3 top under' -d 'They belong to'
complete -c crownwright -n '__fish_seen_subcommand_from profiles' -a 'shapes cloth materials printers'

set -l measured '__fish_seen_subcommand_from block pad'
complete -c crownwright -n $measured -l name -x -d 'What the form is called'
complete -c crownwright -n $measured -l crown-diameter -x -d 'Across the crown'
complete -c crownwright -n $measured -l rise -x -d 'Head line to tip, or thickness'
complete -c crownwright -n $measured -l taken-at -x -a 'outside "cloth middle" form' -d 'Where the tape lay'
complete -c crownwright -n $measured -l panels -x -d 'Panels of the crown'
complete -c crownwright -n $measured -l shape -x -a '(__crownwright_names shapes)' -d 'Crown shape'
complete -c crownwright -n $measured -l dome -x -d 'Height of the dome'
complete -c crownwright -n $measured -l edge-radius -x -d 'Roundness of the edge'
complete -c crownwright -n $measured -l cloth -x -a '(__crownwright_names cloth)' -d Cloth
complete -c crownwright -n $measured -l cloth-thickness -x -d 'Thickness over the form'
complete -c crownwright -n $measured -l wall -x -a solid -d 'Thickness of the wall'
complete -c crownwright -n $measured -l vent-diameter -x -d 'Width of the vents'
complete -c crownwright -n $measured -l vent-spacing -x -d 'From vent to vent'
complete -c crownwright -n $measured -l tolerance -x -d 'Of the triangles'
complete -c crownwright -n $measured -l material -x -a '(__crownwright_names materials)' -d 'For the mass'
complete -c crownwright -n $measured -l before-steam -d 'The figures still shrink'
complete -c crownwright -n $measured -l vents -d 'Usual steam vents'
complete -c crownwright -n $measured -l set -x -d 'Any other key=value'
complete -c crownwright -n $measured -l save-order -r -F -d 'Keep the order'

set -l block '__fish_seen_subcommand_from block'
complete -c crownwright -n $block -l head-girth -x -d 'Round the head'
complete -c crownwright -n $block -l hat-size -x -d 'Instead of the girth'
complete -c crownwright -n $block -l panel-top -x -d 'Tip to crown edge'
complete -c crownwright -n $block -l panel-under -x -d 'Crown edge to head line'
complete -c crownwright -n $block -l collar -x -d 'Below the head line'
complete -c crownwright -n $block -l floor -x -d 'Closes the foot'
complete -c crownwright -n $block -l socket -x -d 'For a stand'

set -l pad '__fish_seen_subcommand_from pad'
complete -c crownwright -n $pad -l dish-readings -x -d 'radius=height pairs'
complete -c crownwright -n $pad -l dish-file -r -F -d 'Mesh of the dish'
complete -c crownwright -n $pad -l gap -x -d 'Room for the cloth'
