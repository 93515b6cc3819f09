-- Neovim as tests/clients/run starts it: the server is started by the filetype plugin that is shipped.
local function say(word, status)
  io.stderr:write('\n' .. word .. '\n')
  vim.cmd('cquit ' .. status)
end

local function wait(what, ready)
  if not vim.wait(10000, ready, 20) then say('no ' .. what, 1) end
end

local buffer = vim.api.nvim_get_current_buf()
local client
wait('client', function()
  client = (vim.lsp.get_clients or vim.lsp.get_active_clients)()[1]
  return client and client.initialized and client.server_capabilities
end)
local lines = vim.api.nvim_buf_line_count(buffer)

local function ask(method, params)
  local answers, err = vim.lsp.buf_request_sync(buffer, method, params, 10000)
  local answer = answers and answers[client.id]
  if err or not answer or answer.err or answer.error then say(method .. ': ' .. vim.inspect(err or answers), 1) end
  return answer.result
end

local function put(row, line)
  vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { line })
end

-- A half-written name is completed.
put(lines, '        safety b')
vim.api.nvim_win_set_cursor(0, { lines + 1, 15 })
local found = ask('textDocument/completion', { textDocument = vim.lsp.util.make_text_document_params(buffer),
  position = { line = lines, character = 16 } })
local chosen
for _, item in ipairs(found.items or found) do
  if item.label == 'safety bar squat' then chosen = item end
end
if not chosen then say('the completion lacks it', 1) end
vim.lsp.util.apply_text_edits({ chosen.textEdit }, buffer, client.offset_encoding)
if vim.fn.getline(lines + 1) ~= '        safety bar squat' then say('completed to ' .. vim.fn.getline(lines + 1), 1) end

-- A fault appears, and its fix makes it go.
put(lines, '        safty bar squat : 5 @ 60 kg')
local fault
wait('fault', function()
  for _, it in ipairs(vim.diagnostic.get(buffer)) do
    if it.lnum == lines and it.severity == vim.diagnostic.severity.ERROR then fault = it end
  end
  return fault
end)
local range = { start = { line = fault.lnum, character = fault.col }, ['end'] = { line = fault.end_lnum, character = fault.end_col } }
local actions = ask('textDocument/codeAction', { textDocument = vim.lsp.util.make_text_document_params(buffer), range = range,
  context = { diagnostics = vim.tbl_map(function(it) return it.user_data.lsp and vim.tbl_extend('keep', it.user_data.lsp,
    { range = range, message = it.message }) end, { fault }) } })
local fixed
for _, action in ipairs(actions) do
  if not fixed and action.edit and (action.kind or ''):find('quickfix') then
    vim.lsp.util.apply_workspace_edit(action.edit, client.offset_encoding)
    fixed = true
  end
end
if not fixed then say('no fix among ' .. vim.inspect(actions), 1) end
wait('end of the fault', function()
  return #vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR }) == 0
end)

-- A session is renamed where it is declared and where it is placed.
vim.fn.search('^session Long reach')
vim.api.nvim_win_set_cursor(0, { vim.fn.line('.'), 9 })
vim.lsp.buf.rename('Far reach')
wait('rename', function() return vim.fn.search('^session Far reach', 'wn') > 0 end)

-- The file gets its layout, and all is saved.
if vim.lsp.buf.format then vim.lsp.buf.format({ timeout_ms = 10000 }) else vim.lsp.buf.formatting_sync(nil, 10000) end
vim.cmd('silent wall')
vim.lsp.stop_client(client.id)
wait('end of the server', function() return client.is_stopped() end)
say('ok', 0)
