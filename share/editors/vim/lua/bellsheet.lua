-- Starts the language server for a plan, one for each workspace. Neovim 0.7 and newer.
local M = {}

local servers = {} -- by workspace

-- The root of the version control around a file, or its folder.
local function workspace(path)
  local folder = vim.fn.fnamemodify(path, ':p:h')
  local git = vim.fn.finddir('.git', folder .. ';')
  return git ~= '' and vim.fn.fnamemodify(git, ':p:h:h') or folder
end

function M.attach(buffer)
  buffer = buffer or vim.api.nvim_get_current_buf()
  local root = workspace(vim.api.nvim_buf_get_name(buffer))
  local id = servers[root]
  if not id or not vim.lsp.get_client_by_id(id) then
    id = vim.lsp.start_client({
      name = 'bellsheet',
      cmd = vim.g.bellsheet_command or { 'bellsheet', 'lsp' },
      root_dir = root,
      workspace_folders = { { uri = vim.uri_from_fname(root), name = root } },
      init_options = { athlete = vim.g.bellsheet_athlete },
    })
    servers[root] = id
  end
  if id then
    vim.lsp.buf_attach_client(buffer, id)
    vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  end
  return id
end

return M
